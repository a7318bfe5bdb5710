export interface VNode<P = any> { type: any; props: P; key: any }
export type ComponentChild = VNode | string | number | bigint | boolean | null | undefined | object;
export type ComponentChildren = ComponentChild | ComponentChild[];
export function h(type: any, props?: any, ...children: any[]): VNode;
export function render(vnode: ComponentChild, parent: Element): void;
export const Fragment: any;
export class Component<P = any, S = any> {
  props: P & { children?: ComponentChildren };
  state: S;
  setState(change: Partial<S>): void;
  render(): ComponentChild;
}
