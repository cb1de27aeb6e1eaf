package dxfread

import "testing"

func TestPlainText(t *testing.T) {
	page := textCoder{page: findCodePage("ANSI_1252")}
	for in, want := range map[string]string{
		"plain":            "plain",
		"%%c22":            "Ø22",
		"%%C13.5%%P0.1":    "Ø13.5±0.1",
		"45%%d":            "45°",
		"%%uUNDER%%u %%oO": "UNDER O",
		"100%%%":           "100%",
		"%%216":            "Ø", // place 216 of windows-1252
		"%%065B":           "AB",
		"50%% x":           "50%% x",
		"50%":              "50%",
		`\U+00D8 12`:       "Ø 12",
		`\u+00d8`:          "Ø",
		`\U+D83D\U+DE00`:   "😀",
		`\U+D83D`:          "\ufffd",
		`\U+00`:            `\U+00`,
		`\M+182A0`:         "あ", // JIS X 0208 in Shift_JIS: 82A0
		`\M+5B0A1`:         "啊", // GB 2312 in EUC: B0A1
		`\M+2A440`:         "一", // Big5: A440
		`\M+3B0A1`:         "가", // KS X 1001 in EUC: B0A1
		`\M+9B0A1`:         `\M+9B0A1`,
		"a^Ib^ c^J":        "a b^c\n",
		`C:\dir`:           `C:\dir`,
	} {
		if got := plainText(in, &page); got != want {
			t.Errorf("%q gives %q, want %q", in, got, want)
		}
	}
}

func TestPlainMText(t *testing.T) {
	page := textCoder{page: findCodePage("ANSI_1252")}
	for in, want := range map[string]string{
		`A\PB`:                        "A\nB",
		`{\fArial|b0|i0|c0|p0;PL 10}`: "PL 10",
		`\A1;\H2.5x;\C1;\W0.8;\T1.1;\Q10;x\pxi-3,l4,t4;y`: "xy",
		`\S3/8;`:                 "3/8",
		`\S3#8;`:                 "3/8",
		`\S3^8;`:                 "3/8",
		`1\S1/16;"`:              `1 1/16"`,
		`1{\H0.7x;\S1/16;}"`:     `1 1/16"`,
		`Ø\S1/2;`:                "Ø1/2",
		`\S1/2;4`:                "1/2 4",
		`50\S+0.1^-0.2;`:         "50 +0.1/-0.2",
		`10\S2^;`:                "10 2",
		`\S^ 2;`:                 "2",
		`\S1\/2/3;`:              "1/2/3",
		`\Sno end`:               `\Sno end`,
		`a\~b`:                   "a b",
		`\\path \{x\}`:           `\path {x}`,
		`\LUNDER\l \Oover\o`:     "UNDER over",
		`%%c22 \U+00B1`:          "Ø22 ±",
		`\fno end`:               `\fno end`,
		`tail\`:                  `tail\`,
		`col\Numn^Jx`:            "col\numn\nx",
		`{nested {deep} groups}`: "nested deep groups",
	} {
		if got := plainMText(in, &page); got != want {
			t.Errorf("%q gives %q, want %q", in, got, want)
		}
	}
}

// TestCodePages holds one letter of each page. The bytes are those of the
// mapping tables that the Unicode Consortium publishes for each page
// (unicode.org/Public/MAPPINGS), from memory.
func TestCodePages(t *testing.T) {
	for _, c := range []struct{ page, raw, want string }{
		{"ANSI_1250", "\xb9", "ą"}, {"ANSI_1251", "\xcf\xeb\xe8\xf2\xe0", "Плита"}, {"ansi_1252", "\xd8", "Ø"},
		{"ANSI_1253", "\xd9", "Ω"}, {"ANSI_1254", "\xfd", "ı"}, {"ANSI_1255", "\xe0", "א"},
		{"ANSI_1256", "\xc7", "ا"}, {"ANSI_1257", "\xe0", "ą"}, {"ANSI_1258", "\xd0", "Đ"}, {"ANSI_874", "\xa1", "ก"},
		{"DOS437", "\xe9", "Θ"}, {"dos850", "\x9d", "Ø"}, {"dos852", "\xa5", "ą"}, {"dos855", "\xa0", "а"},
		{"dos866", "\x80", "А"}, {"DOS865", "\x9d", "Ø"}, {"dos863", "\x82", "é"}, {"dos860", "\x82", "é"},
		{"ISO8859-1", "\xd8", "Ø"}, {"ISO8859-5", "\xb0", "А"}, {"MACINTOSH", "\xaf", "Ø"},
		{"ANSI_932", "\x83\x5c", "ソ"}, {"ANSI_936", "\xb8\xd6\xb0\xe5", "钢板"}, {"ANSI_949", "\xc3\xb6", "철"}, {"ANSI_950", "\xbf\xfb", "鋼"},
		{"BIG5", "\xbf\xfb", "鋼"}, {"gb2312", "\xb8\xd6", "钢"}, {"UTF-8", "Ø", "Ø"},
	} {
		coder, known := chooseText("AC1015", c.page, false)
		if !known {
			t.Errorf("%s is not known", c.page)
		}
		if got := coder.text([]byte(c.raw)); got != c.want || coder.wrong || coder.other {
			t.Errorf("%s: % x gives %q, want %q (%v %v)", c.page, c.raw, got, c.want, coder.wrong, coder.other)
		}
	}
	if _, known := chooseText("AC1009", "ANSI_9999", false); known {
		t.Error("an unknown page was accepted")
	}
	if c, _ := chooseText("AC1021", "ANSI_1251", false); c.page.name != "UTF-8" {
		t.Errorf("AC1021 is read as %s", c.page.name)
	}
	if c, _ := chooseText("AC1018", "ANSI_1251", false); c.page.name != "windows-1251" {
		t.Errorf("AC1018 is read as %s", c.page.name)
	}
	c, _ := chooseText("AC1024", "", false)
	if got := c.text([]byte("\xd812")); got != "Ø12" || !c.wrong {
		t.Errorf("bytes that are no UTF-8: %q %v", got, c.wrong)
	}
	c, _ = chooseText("AC1015", "ANSI_1252", false)
	if got := c.text([]byte("Ø12")); got != "Ø12" || !c.other {
		t.Errorf("UTF-8 in an older file: %q %v", got, c.other)
	}
	// GBK pairs may look like UTF-8: these bytes are two Chinese letters.
	c, _ = chooseText("AC1015", "ANSI_936", false)
	if got := c.text([]byte("\xc1\xaa\xcd\xa8")); got != "联通" || c.other {
		t.Errorf("GBK: %q %v", got, c.other)
	}
}
