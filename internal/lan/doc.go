// Package lan lets phones on the same network reach this machine: it lists the
// machine's names and addresses, and makes a certificate for them.
//
// Enter by [OpenAuthority], which makes a certificate authority on first use and
// keeps it beside the data file, and [Authority.Config], which returns a TLS
// configuration whose server certificate is renewed before it expires and whenever
// the machine's names change. Enter by [FromFiles] to use a certificate from
// elsewhere.
//
// The authority's certificate limits it to this machine and to private networks
// (RFC 5280, section 4.2.1.10), so that a phone which trusts it takes no risk on
// the internet. The package imports the standard library only.
package lan
