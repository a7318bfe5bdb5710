// Package browser drives a real browser of each engine that phones have, for tests and for
// nothing else: no production package imports it.
//
//   - Chromium over the Chrome DevTools Protocol, by chromedp.
//   - WebKit over W3C WebDriver (https://www.w3.org/TR/webdriver2/): Debian's webkit2gtk-driver
//     with its MiniBrowser, on a display of its own (Xvfb). Every browser on an iPhone is WebKit.
//   - Firefox over WebDriver BiDi (https://www.w3.org/TR/webdriver-bidi/), which Firefox speaks
//     by itself.
//
// Enter by [Choose], which says which engines are on this machine, and [Start], which opens a
// [Page]. The same calls do the same in all three, so that one test text runs in each. Nothing
// waits for a fixed time: a call waits for its condition until its context ends, and says then
// what it waited for.
//
// There is no kept Go library for WebDriver BiDi, and those for W3C WebDriver have had no release
// for years. What the tests need of the two protocols is in bidi.go and wire.go.
package browser
