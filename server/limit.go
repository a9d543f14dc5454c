package server

import (
	"fmt"
	"net/http"
	"strconv"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// limits let something happen so often to each of many: burst times at once, then
// once every while.
type limits struct {
	every time.Duration
	burst int
	mu    sync.Mutex
	of    map[string]*rate.Limiter
	swept time.Time // when those that need not be remembered were looked for
}

// mostLimited are told apart; all others share one limit, so that nobody fills the memory
// by coming as somebody else each time, or begins anew by it.
const mostLimited = 10_000

// one is the limit of somebody.
func (l *limits) one(key string, now time.Time) *rate.Limiter {
	if l.of == nil {
		l.of = map[string]*rate.Limiter{}
	}
	if len(l.of) >= mostLimited && l.of[key] == nil {
		if now.Sub(l.swept) >= l.every { // meanwhile hardly any would be found
			l.swept = now
			for k, one := range l.of {
				if one.TokensAt(now) >= float64(l.burst) { // as new
					delete(l.of, k)
				}
			}
		}
		if len(l.of) >= mostLimited {
			key = ""
		}
	}
	if l.of[key] == nil {
		l.of[key] = rate.NewLimiter(rate.Every(l.every), l.burst)
	}
	return l.of[key]
}

// wait is how long somebody has to wait until it may happen; 0 where it may happen now.
func (l *limits) wait(key string, now time.Time) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	if lack := 1 - l.one(key, now).TokensAt(now); lack > 0 {
		return time.Duration(lack * float64(l.every))
	}
	return 0
}

// take counts that it happened, and tells whether it may have.
func (l *limits) take(key string, now time.Time) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.one(key, now).AllowN(now, 1)
}

// errLater is an error that waiting mends.
type errLater struct{ wait time.Duration }

func (e errLater) Error() string {
	return fmt.Sprintf("too many requests; try again in %d s", e.seconds())
}

func (e errLater) seconds() int { return int(e.wait/time.Second) + 1 }

func later(wait time.Duration) error { return errLater{wait} }

// tell puts into an answer when to come again.
func (e errLater) tell(h http.Header) { h.Set("Retry-After", strconv.Itoa(e.seconds())) }
