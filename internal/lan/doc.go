// Package lan makes this machine known to phones on the same network: by what
// names and addresses it can be reached, and by a certificate for them.
//
// Enter by [OpenAuthority], which makes an authority of the house's own on first
// use and keeps it beside the data file, and [Authority.Config], which gives a
// TLS set-up whose leaf is made anew by itself before it runs out and whenever
// the machine's names change. Or by [FromFiles] for a certificate from elsewhere.
//
// The authority can only speak for this machine and for private networks: its
// certificate says so (RFC 5280, section 4.2.1.10), so that a phone that trusts
// it is not at its mercy anywhere else. The package imports the standard library
// alone.
package lan
