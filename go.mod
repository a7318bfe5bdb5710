module hobside

go 1.26.8

require (
	github.com/andybalholm/brotli v1.2.8
	github.com/arran4/golang-ical v0.3.4
	github.com/bcicen/go-units v1.0.5
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/coder/websocket v1.8.15
	github.com/emersion/go-ical v0.0.0-20250329121855-f41e73efc392
	github.com/gorilla/mux v1.8.1
	github.com/stretchr/testify v1.12.1
	github.com/yuin/goldmark v1.8.7
	go.etcd.io/bbolt v1.5.0
	golang.org/x/net v0.62.0
	golang.org/x/text v0.44.0
	pgregory.net/rapid v1.3.0
	rsc.io/qr v0.2.0
)

require (
	github.com/Knetic/govaluate v3.0.0+incompatible // indirect
	github.com/bcicen/bfstree v1.0.0 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/teambition/rrule-go v1.8.2 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/sys v0.49.0 // indirect
)
