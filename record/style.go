package record

import (
	"strconv"
	"strings"

	"swingwright/quantity"
)

// Style is how a recorder writes its file. The zero Style is plain: seconds,
// deg/s and m/s², commas between cells.
type Style struct {
	Separator byte   // 0 for a comma
	Comma     bool   // before decimals
	Mark      bool   // a byte order mark
	CRLF      bool   // lines end as on Windows
	Stamps    string // unit of time: s, ms, us or ns; empty for s
	Radians   bool   // rates in rad/s, else deg/s
	Gravities bool   // acceleration in g, else m/s²
	Bare      bool   // no acceleration
	Preamble  []string
}

// write writes samples as a file.
func (st Style) write(samples []sample) []byte {
	var b []byte
	if st.Mark {
		b = append(b, "\xef\xbb\xbf"...)
	}
	end := "\n"
	if st.CRLF {
		end = "\r\n"
	}
	for _, line := range st.Preamble {
		b = append(append(b, line...), end...)
	}
	b = append(append(b, strings.Join(st.names(), string(st.sep()))...), end...)
	for _, x := range samples {
		b = st.row(b, x)
		b = append(b, end...)
	}
	return b
}

func (st Style) sep() byte {
	if st.Separator == 0 {
		return ','
	}
	return st.Separator
}

// times tells the unit of stamps: how many there are to a second, and the decimals
// that are written.
func (st Style) times() (name string, per float64, decimals int) {
	switch st.Stamps {
	case "ms":
		return "ms", 1e3, 2
	case "us":
		return "us", 1e6, 0
	case "ns":
		return "ns", 1e9, 0
	}
	return "s", 1, 5
}

func (st Style) names() []string {
	unit, _, _ := st.times()
	rate, accel := "deg/s", "m/s2"
	if st.Radians {
		rate = "rad/s"
	}
	if st.Gravities {
		accel = "g"
	}
	names := []string{"time (" + unit + ")"}
	for _, axis := range []string{"x", "y", "z"} {
		names = append(names, "rate-"+axis+" ("+rate+")")
	}
	for _, axis := range []string{"x", "y", "z"} {
		if !st.Bare {
			names = append(names, "acceleration-"+axis+" ("+accel+")")
		}
	}
	return names
}

func (st Style) row(b []byte, x sample) []byte {
	_, per, decimals := st.times()
	b = st.number(b, x.t*per, decimals)
	for _, v := range x.rate {
		b = append(b, st.sep())
		if st.Radians {
			b = st.number(b, v, 7)
		} else {
			b = st.number(b, v/float64(quantity.Degree), 5)
		}
	}
	for _, a := range x.accel {
		if st.Bare {
			break
		}
		b = append(b, st.sep())
		if st.Gravities {
			a /= quantity.StandardGravity
		}
		b = st.number(b, a, 4)
	}
	return b
}

// number writes a number with its decimals, without zeros at the end.
func (st Style) number(b []byte, x float64, decimals int) []byte {
	from := len(b)
	b = strconv.AppendFloat(b, x, 'f', decimals, 64)
	for decimals > 0 && b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	if b[len(b)-1] == '.' {
		b = b[:len(b)-1]
	}
	for i := from; st.Comma && i < len(b); i++ {
		if b[i] == '.' {
			b[i] = ','
		}
	}
	return b
}
