package convert

import (
	"encoding/base64"
	"io"
	"mime"
	"mime/multipart"
	"mime/quotedprintable"
	"net/mail"
	"regexp"
	"strings"
)

var mailHeader = regexp.MustCompile(`(?i)^(?:from|to|subject|date|received|return-path|message-id|mime-version|content-type|von|an|betreff|datum|delivered-to|reply-to|cc)\s*:\s*\S`)

// isMail reports whether a text is a saved e-mail: it begins with two fields of one.
func isMail(s string) bool {
	first, rest, _ := strings.Cut(strings.TrimLeft(s, "\n"), "\n")
	second, _, _ := strings.Cut(rest, "\n")
	return mailHeader.MatchString(first) && (mailHeader.MatchString(second) || strings.HasPrefix(second, " ") || strings.HasPrefix(second, "\t"))
}

// readMail reads a saved e-mail. Its subject is the title of a recipe that has none.
func readMail(s string) ([]*draft, error) {
	m, err := mail.ReadMessage(strings.NewReader(strings.TrimLeft(s, "\n")))
	if err != nil { // typed or copied, and no e-mail of a program
		_, body, _ := strings.Cut(s, "\n\n")
		return readLines(lines(unquoted(body)), "e-mail"), nil
	}
	plainText, page := "", ""
	bodies(m.Header.Get("Content-Type"), m.Header.Get("Content-Transfer-Encoding"), m.Body, &plainText, &page, 0)
	var found []*draft
	if page != "" {
		if fromPage, err := readPage(page); err == nil {
			found = fromPage
		}
	}
	if len(found) == 0 && plainText != "" {
		found = readLines(lines(unquoted(plainText)), "e-mail")
	}
	subject, err := new(mime.WordDecoder).DecodeHeader(m.Header.Get("Subject"))
	if err != nil {
		subject = m.Header.Get("Subject")
	}
	for _, d := range found {
		d.form = "e-mail"
		if d.title == "" {
			d.title = strings.TrimSpace(replyMark.ReplaceAllString(subject, ""))
		}
	}
	return found, nil
}

// replyMark are the marks that mail programs put before a subject.
var replyMark = regexp.MustCompile(`(?i)^(?:\s*(?:re|fwd?|aw|wg)\s*:)+`)

// bodies finds the texts of an e-mail: the first of words and the first page.
func bodies(kind, encoding string, body io.Reader, plainText, page *string, depth int) {
	media, params, err := mime.ParseMediaType(kind)
	if err != nil {
		media = "text/plain"
	}
	if strings.HasPrefix(media, "multipart/") && depth < 8 {
		parts := multipart.NewReader(body, params["boundary"])
		for {
			part, err := parts.NextRawPart()
			if err != nil {
				return
			}
			bodies(part.Header.Get("Content-Type"), part.Header.Get("Content-Transfer-Encoding"), part, plainText, page, depth+1)
		}
	}
	switch strings.ToLower(encoding) {
	case "quoted-printable":
		body = quotedprintable.NewReader(body)
	case "base64":
		body = base64.NewDecoder(base64.StdEncoding, body)
	}
	read, err := io.ReadAll(body)
	s, unread := text(read)
	if err != nil || unread != nil {
		return
	}
	switch {
	case media == "text/html" && *page == "":
		*page = s
	case strings.HasPrefix(media, "text/plain") && *plainText == "":
		*plainText = s
	}
}
