package dxfread

import (
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/japanese"
	"golang.org/x/text/encoding/korean"
	"golang.org/x/text/encoding/simplifiedchinese"
	"golang.org/x/text/encoding/traditionalchinese"
)

// codePage is one value of $DWGCODEPAGE.
type codePage struct {
	name   string // as told in Drawing.Encoding
	enc    encoding.Encoding
	double bool // letters of one or two bytes
}

// findCodePage knows the names that DXF files use for their code pages; the
// zero value is returned for those that it does not know.
func findCodePage(name string) codePage {
	key := strings.ToUpper(strings.TrimSpace(name))
	key = strings.NewReplacer("ANSI_", "", "ANSI", "", "WINDOWS-", "", "CP", "", "_", "", "-", "", " ", "").Replace(key)
	switch key {
	case "932", "SHIFTJIS", "SJIS", "DOS932":
		return codePage{"Shift_JIS", japanese.ShiftJIS, true}
	case "936", "GB2312", "GBK", "DOS936":
		return codePage{"GBK", simplifiedchinese.GBK, true}
	case "949", "KSC5601", "DOS949":
		return codePage{"EUC-KR", korean.EUCKR, true}
	case "950", "BIG5", "DOS950":
		return codePage{"Big5", traditionalchinese.Big5, true}
	case "UTF8":
		return codePage{"UTF-8", nil, false}
	}
	if cm, label := singleByte(key); cm != nil {
		return codePage{label, cm, false}
	}
	return codePage{}
}

// singleByte lists the pages with one byte a letter.
func singleByte(key string) (*charmap.Charmap, string) {
	switch key {
	case "874":
		return charmap.Windows874, "windows-874"
	case "1250":
		return charmap.Windows1250, "windows-1250"
	case "1251":
		return charmap.Windows1251, "windows-1251"
	case "1252", "ASCII", "USASCII":
		return charmap.Windows1252, "windows-1252"
	case "1253":
		return charmap.Windows1253, "windows-1253"
	case "1254":
		return charmap.Windows1254, "windows-1254"
	case "1255":
		return charmap.Windows1255, "windows-1255"
	case "1256":
		return charmap.Windows1256, "windows-1256"
	case "1257":
		return charmap.Windows1257, "windows-1257"
	case "1258":
		return charmap.Windows1258, "windows-1258"
	case "DOS437", "437":
		return charmap.CodePage437, "IBM437"
	case "DOS850", "850":
		return charmap.CodePage850, "IBM850"
	case "DOS852", "852":
		return charmap.CodePage852, "IBM852"
	case "DOS855", "855":
		return charmap.CodePage855, "IBM855"
	case "DOS860", "860":
		return charmap.CodePage860, "IBM860"
	case "DOS862", "862":
		return charmap.CodePage862, "IBM862"
	case "DOS863", "863":
		return charmap.CodePage863, "IBM863"
	case "DOS865", "865":
		return charmap.CodePage865, "IBM865"
	case "DOS866", "866":
		return charmap.CodePage866, "IBM866"
	case "ISO88591":
		return charmap.ISO8859_1, "ISO-8859-1"
	case "ISO88592":
		return charmap.ISO8859_2, "ISO-8859-2"
	case "ISO88593":
		return charmap.ISO8859_3, "ISO-8859-3"
	case "ISO88594":
		return charmap.ISO8859_4, "ISO-8859-4"
	case "ISO88595":
		return charmap.ISO8859_5, "ISO-8859-5"
	case "ISO88596":
		return charmap.ISO8859_6, "ISO-8859-6"
	case "ISO88597":
		return charmap.ISO8859_7, "ISO-8859-7"
	case "ISO88598":
		return charmap.ISO8859_8, "ISO-8859-8"
	case "ISO88599":
		return charmap.ISO8859_9, "ISO-8859-9"
	case "MACINTOSH", "MACROMAN":
		return charmap.Macintosh, "macintosh"
	}
	return nil, ""
}

// textCoder turns the bytes of a value into UTF-8.
type textCoder struct {
	page  codePage // enc nil: UTF-8
	sure  bool     // the file or its version says so
	wrong bool     // something did not fit the encoding
	other bool     // something was UTF-8 though the code page is another
}

// chooseText follows the rule of DXF: UTF-8 from AC1021 on or with a byte
// order mark, else the code page, else windows-1252.
func chooseText(version, page string, bom bool) (t textCoder, known bool) {
	known = true
	if bom || version >= "AC1021" && strings.HasPrefix(version, "AC") {
		t.page, t.sure = codePage{name: "UTF-8"}, true
		return t, true
	}
	if page != "" {
		t.page = findCodePage(page)
		known = t.page.name != ""
		t.sure = known
	}
	if t.page.name == "" {
		t.page = findCodePage("ANSI_1252")
	}
	return t, known
}

// text gives a value as UTF-8. Bytes that are not valid in UTF-8 are read as
// windows-1252; bytes of a page with one byte a letter that form valid UTF-8
// are taken as that, because such pairs of letters do not occur in words. Both
// are remembered for a note.
func (t *textCoder) text(b []byte) string {
	if isASCII(b) {
		return string(b)
	}
	valid := utf8.Valid(b)
	if t.page.enc == nil {
		if valid {
			return string(b)
		}
		t.wrong = true
		return decodeWith(charmap.Windows1252, b)
	}
	if valid && !t.page.double {
		t.other = true
		return string(b)
	}
	return decodeWith(t.page.enc, b)
}

func decodeWith(e encoding.Encoding, b []byte) string {
	out, err := e.NewDecoder().Bytes(b)
	if err != nil {
		return strings.ToValidUTF8(string(b), "\ufffd")
	}
	return strings.ToValidUTF8(string(out), "\ufffd")
}

func isASCII(b []byte) bool {
	for _, c := range b {
		if c >= 0x80 {
			return false
		}
	}
	return true
}
