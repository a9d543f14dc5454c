package clearance

import (
	"errors"
	"fmt"
	"math"

	q "swingwright/quantity"
)

// A Mark is where a point of the leaf stands at one angle, as a tape finds it
// on the floor.
type Mark struct {
	Angle q.Angle
	// Chord is the straight distance from where the point is with the leaf
	// closed: 2 r sin(θ/2).
	Chord q.Length
	// Across is the distance square to the closed leaf: r sin θ.
	Across q.Length
	// Arc is the distance along the path: r θ.
	Arc q.Length
	// U is the standard uncertainty of the angle of a mark laid by its chord.
	U q.Angle
}

// Marks gives the marks of a point at a radius from the hinge pin, for angles
// above 0 and below 180°. Tape is the standard uncertainty with which a chord
// is laid. It reports all that is wrong with the radius, the tape and the angles.
func Marks(radius q.Measured[q.Length], tape q.Length, angles ...q.Angle) ([]Mark, error) {
	wrong := []error{checkRadius(radius)}
	if !(tape >= 0) {
		wrong = append(wrong, fmt.Errorf("clearance: the tape's uncertainty is %g m; give zero or more", float64(tape)))
	}
	for i, a := range angles {
		if !(a > 0 && a < math.Pi) {
			wrong = append(wrong, fmt.Errorf("clearance: mark %d is at %g°; give an angle above 0° and below 180°", i+1, float64(a/q.Degree)))
		}
	}
	if err := errors.Join(wrong...); err != nil {
		return nil, err
	}
	marks := make([]Mark, len(angles))
	for i, a := range angles {
		r := radius.Value
		marks[i] = Mark{
			Angle:  a,
			Chord:  2 * r * q.Length(math.Sin(float64(a)/2)),
			Across: r * q.Length(math.Sin(float64(a))),
			Arc:    r * q.Length(a),
			U:      chordSpread(a, radius, tape),
		}
	}
	return marks, nil
}

// AngleFromChord is the leaf angle from the chord between where a point at a
// radius from the hinge pin is and where it is with the leaf closed:
// θ = 2 arcsin(c/2r), with the spread by the law of propagation of uncertainty
// (JCGM 100:2008, eq. 10). Near 180° the spread grows without end.
func AngleFromChord(chord, radius q.Measured[q.Length]) (q.Measured[q.Angle], error) {
	wrong := []error{checkRadius(radius)}
	ratio := float64(chord.Value / (2 * radius.Value))
	switch {
	case !chord.Known || !(chord.Value >= 0):
		wrong = append(wrong, fmt.Errorf("clearance: the chord is %s; give a length of zero or more", said(chord)))
	case wrong[0] == nil && !(ratio < 1):
		wrong = append(wrong, fmt.Errorf("clearance: a chord of %g m cannot be reached at a radius of %g m; give one below %g m, or measure both again",
			float64(chord.Value), float64(radius.Value), float64(2*radius.Value)))
	}
	if err := errors.Join(wrong...); err != nil {
		return q.Measured[q.Angle]{}, err
	}
	angle := q.Angle(2 * math.Asin(ratio))
	return q.Give(angle, chordSpread(angle, radius, chord.U)), nil
}

// AngleFromAcross is the leaf angle, from 0 up to 90°, from the distance of a
// point at a radius from the hinge pin, square to where the closed leaf was:
// θ = arcsin(y/r), with the spread by the same law. Near 90° the spread grows without end.
func AngleFromAcross(across, radius q.Measured[q.Length]) (q.Measured[q.Angle], error) {
	wrong := []error{checkRadius(radius)}
	ratio := float64(across.Value / radius.Value)
	switch {
	case !across.Known || !(across.Value >= 0):
		wrong = append(wrong, fmt.Errorf("clearance: the distance across is %s; give a length of zero or more", said(across)))
	case wrong[0] == nil && !(ratio < 1):
		wrong = append(wrong, fmt.Errorf("clearance: a distance across of %g m cannot be reached before 90° at a radius of %g m; give one below that radius, or measure the chord",
			float64(across.Value), float64(radius.Value)))
	}
	if err := errors.Join(wrong...); err != nil {
		return q.Measured[q.Angle]{}, err
	}
	cos := math.Sqrt((1 - ratio) * (1 + ratio))
	r := float64(radius.Value)
	u := math.Hypot(float64(across.U)/(r*cos), ratio/cos*float64(radius.U)/r)
	return q.Give(q.Angle(math.Asin(ratio)), q.Angle(u)), nil
}

// chordSpread is the standard uncertainty of the angle of a chord. With
// θ = 2 arcsin(c/2r): ∂θ/∂c = 1/(r cos(θ/2)) and ∂θ/∂r = −2 tan(θ/2)/r.
func chordSpread(theta q.Angle, radius q.Measured[q.Length], chord q.Length) q.Angle {
	sin, cos := math.Sincos(float64(theta) / 2)
	return q.Angle(math.Hypot(float64(chord/radius.Value)/cos, 2*sin/cos*float64(radius.U/radius.Value)))
}

func checkRadius(r q.Measured[q.Length]) error {
	if r.Known && r.Value > 0 && !math.IsInf(float64(r.Value), 0) {
		return nil
	}
	return fmt.Errorf("clearance: the radius is %s; give the distance from the hinge pin, above zero", said(r))
}

func said(l q.Measured[q.Length]) string {
	if !l.Known {
		return "not known"
	}
	return fmt.Sprintf("%g m", float64(l.Value))
}
