package engine

import "reflect"

// fillLists makes every list and map in a value that is nil an empty one, so that
// the page gets [] or {} where its types say list or map, and never null. The value
// must be one that can be set. Pointers that are nil stay nil.
func fillLists(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			fillLists(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() { // an unexported field is not written as JSON
				fillLists(v.Field(i))
			}
		}
	case reflect.Slice:
		if v.IsNil() {
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		}
		fillElements(v)
	case reflect.Array:
		fillElements(v)
	case reflect.Map:
		if v.IsNil() {
			v.Set(reflect.MakeMap(v.Type()))
		}
		if holdsLists(v.Type().Elem()) {
			for _, k := range v.MapKeys() { // an element of a map can't be set in place
				x := reflect.New(v.Type().Elem()).Elem()
				x.Set(v.MapIndex(k))
				fillLists(x)
				v.SetMapIndex(k, x)
			}
		}
	}
}

// fillElements fills the lists in the elements of a list.
func fillElements(v reflect.Value) {
	if !holdsLists(v.Type().Elem()) {
		return
	}
	for i := range v.Len() {
		fillLists(v.Index(i))
	}
}

// holdsLists reports whether values of a type may have lists or maps in them.
func holdsLists(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Pointer, reflect.Struct, reflect.Slice, reflect.Array, reflect.Map:
		return true
	}
	return false
}
