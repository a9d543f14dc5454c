// The phone on the leaf: what its sensors say, the live angle, and when a swing begins and ends.

// ask asks for the sensor. It has to be called by a tap, before anything is waited for: where the browser asks its
// user (Device Orientation and Motion, W3C, requestPermission) it does so only then. It gives "granted"; "insecure",
// where the page came without TLS, to which no browser gives sensors; "denied"; or "absent".
export async function ask() {
  if (!isSecureContext) return 'insecure';
  if (typeof DeviceMotionEvent === 'undefined') return 'absent';
  if (typeof DeviceMotionEvent.requestPermission === 'function') {
    try {
      if (await DeviceMotionEvent.requestPermission() !== 'granted') return 'denied';
    } catch {
      return 'denied';
    }
  }
  return await new Promise(resolve => { // a device without sensors sends nothing, or one empty event
    const heard = event => { if (event.rotationRate && event.rotationRate.alpha !== null) end('granted'); };
    const end = answer => { removeEventListener('devicemotion', heard); clearTimeout(timer); resolve(answer); };
    const timer = setTimeout(() => end('absent'), 1500);
    addEventListener('devicemotion', heard);
  });
}

const still = 1.5;    // deg/s: below it the leaf rests
const rests = 3;      // s of rest before and after a swing
const opened = 15;    // deg: less is no swing
const shut = 8;       // deg: the leaf is in its frame again

// A Watch listens to the sensors. It tells tell(state) at every sample, with state.phase
// steady, ready, moving or done, the live angle and the swings so far; after as many
// swings as wished it ends by itself.
export class Watch {
  constructor(swings, tell) {
    Object.assign(this, {wished: swings, tell, rows: [], phase: 'steady', angle: 0, swings: 0, bias: [0, 0, 0], up: null, since: null, farthest: 0, sums: [], last: null});
    this.hear = event => this.sample(event);
    addEventListener('devicemotion', this.hear);
  }

  end() { removeEventListener('devicemotion', this.hear); }

  sample(event) {
    const r = event.rotationRate, a = event.accelerationIncludingGravity || {};
    if (!r || r.alpha === null || this.phase === 'done') return;
    const t = event.timeStamp / 1000; // never event.interval, which browsers make up
    const rate = [r.alpha, r.beta, r.gamma];
    this.rows.push([t, ...rate, a.x ?? '', a.y ?? '', a.z ?? '']);
    const free = rate.map((x, i) => x - this.bias[i]);
    const speed = Math.hypot(...free);
    const dt = this.last === null ? 0 : Math.min(t - this.last, 0.2);
    this.last = t;
    if (this.phase === 'steady') this.settle(t, rate, a, Math.hypot(...rate));
    else {
      const about = this.up ? free.reduce((sum, x, i) => sum + x * this.up[i], 0) : this.signed(free);
      if (speed > still / 3) this.angle += about * dt;
      this.follow(t, speed);
    }
    this.tell(this);
  }

  // settle waits until the leaf has rested long enough, and learns what the sensor says at rest.
  settle(t, rate, a, speed) {
    if (speed > still * 2) { this.since = null; this.sums = []; return; }
    this.since ??= t;
    this.sums.push([...rate, a.x || 0, a.y || 0, a.z || 0]);
    if (t - this.since < rests) return;
    const mean = i => this.sums.reduce((sum, row) => sum + row[i], 0) / this.sums.length;
    this.bias = [mean(0), mean(1), mean(2)];
    const g = [mean(3), mean(4), mean(5)], size = Math.hypot(...g);
    this.up = size > 5 ? g.map(x => x / size) : null;
    this.phase = 'ready';
    this.since = null;
  }

  // signed is the turn about whatever axis the leaf turned about first.
  signed(free) {
    const size = Math.hypot(...free);
    if (!this.axis && size > 10) this.axis = free.map(x => x / size);
    return this.axis ? free.reduce((sum, x, i) => sum + x * this.axis[i], 0) : 0;
  }

  follow(t, speed) {
    this.farthest = Math.max(this.farthest, Math.abs(this.angle));
    if (speed > still) { this.since = null; this.phase = 'moving'; return; }
    this.since ??= t;
    if (this.phase !== 'moving' || t - this.since < rests || Math.abs(this.angle) > shut || this.farthest < opened) return;
    this.swings++;
    this.angle = this.farthest = 0;
    this.phase = this.swings >= this.wished ? 'done' : 'ready';
    if (this.phase === 'done') this.end();
  }

  // text is the recording as the engine reads it.
  text() {
    const begin = this.rows.length ? this.rows[0][0] : 0;
    return 'time (s),rate x (deg/s),rate y (deg/s),rate z (deg/s),acc x (m/s2),acc y (m/s2),acc z (m/s2)\n' +
      this.rows.map(row => [(row[0] - begin).toFixed(4), ...row.slice(1).map(x => x === '' ? '' : x.toFixed(3))].join(',')).join('\n') + '\n';
  }
}
