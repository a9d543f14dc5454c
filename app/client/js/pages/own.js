// What is one's own: the password, where one is signed in, and the tokens of one's programs.
import {alarm, h, say} from '../dom.js';
import {button, choices, field, link} from '../parts.js';
import * as sync from '../sync.js';
import {day, moment, n, t} from '../texts.js';
import {show} from '../main.js';

export default async function page() {
  const who = await sync.session();
  if (!who?.name) return {title: t('own'), back: '#/settings', content: [h('p', {}, t(who ? 'own.none' : 'offline')), who?.needed ? link('#/sign-in', t('sign.in')) : '']};
  const [mine, held] = await Promise.all([sync.call('GET', '/api/sessions'), sync.call('GET', '/api/tokens')]);
  const secret = h('div', {'aria-live': 'polite'});
  return {title: t('own'), under: who.name, back: '#/settings', content: [
    h('details', {class: 'more'}, h('summary', {}, t('password.new')), password(who)),
    h('section', {}, h('h2', {}, n('sessions', mine.length)), sessions(mine, x => done(() => sync.call('DELETE', '/api/sessions/' + encodeURIComponent(x.id)))),
      mine.length > 1 ? button(t('sessions.others'), () => done(() => sync.call('DELETE', '/api/sessions'))) : ''),
    h('section', {}, h('h2', {}, n('tokens', held.filter(x => !x.withdrawn).length)), h('p', {class: 'hint'}, t('tokens.hint')), secret,
      tokens(held, x => done(() => sync.call('DELETE', '/api/tokens/' + x.id))),
      h('details', {class: 'more'}, h('summary', {}, t('token.new')), who.fresh ? wish(who, secret) : again(who))),
  ]};
}

// done does something, shows the page as it is then, and tells what was refused.
async function done(change) {
  alarm('');
  try {
    await change();
    await show(true);
    say(t('done'));
  } catch (error) {
    alarm(error.message);
  }
}

// again asks once more for the password, before accounts or tokens are changed: a phone that lies about may be in
// other hands.
export function again(who) {
  const input = h('input', {type: 'password', autocomplete: 'current-password', required: true});
  const wrong = h('p', {class: 'wrong', role: 'alert'});
  const give = async event => {
    event.preventDefault();
    const response = await sync.signIn(who.name, input.value).catch(() => null);
    input.value = '';
    if (response?.ok) await show(true);
    else wrong.textContent = !response ? t('offline') : response.status === 401 ? t('again.wrong') : response.status === 429 ? t('sign.in.later', {n: response.headers.get('Retry-After')}) : await response.text();
  };
  return h('form', {onsubmit: give}, h('p', {}, t('again.why')), h('input', {type: 'text', autocomplete: 'username', value: who.name, hidden: true}),
    field(`again-${++asked}`, t('again', {name: who.name}), input), wrong, h('button', {type: 'submit', class: 'main'}, t('again.go')));
}
let asked = 0;

// password changes one's own.
function password(who) {
  const old = h('input', {type: 'password', autocomplete: 'current-password', required: true});
  const [one, two] = [0, 1].map(() => h('input', {type: 'password', autocomplete: 'new-password', required: true, minlength: '15'}));
  const wrong = h('p', {class: 'wrong', role: 'alert'});
  const change = async event => {
    event.preventDefault();
    wrong.textContent = '';
    if (one.value !== two.value) { wrong.textContent = t('password.differ'); return; }
    try {
      await sync.call('POST', '/api/password', {old: old.value, new: one.value});
      await show(true);
      say(t('password.changed'));
    } catch (error) {
      wrong.textContent = error.status === 401 ? t('again.wrong') : error.message;
    }
  };
  return h('form', {onsubmit: change}, h('input', {type: 'text', autocomplete: 'username', value: who.name, hidden: true}),
    field('old', t('password.old'), old), field('one', t('password.one'), one, t('password.hint')), field('two', t('password.two'), two), wrong,
    h('button', {type: 'submit', class: 'main'}, t('password.change')));
}

// sessions lists browsers; end ends one of them, where that can be done.
export function sessions(list, end) {
  return h('ul', {class: 'cards'}, list.map(x => h('li', {class: 'card'},
    h('p', {class: 'card-title'}, device(x.with), x.this ? h('span', {class: 'tag'}, t('session.this')) : ''),
    h('p', {class: 'hint'}, t('session.when', {on: moment(x.on), used: moment(x.used), from: x.from || '–'})),
    end && x.id ? button(t(x.this ? 'session.end.this' : 'session.end'), () => end(x), 'quiet') : '')));
}

// device is what a browser says that it is, in fewer words.
function device(text) {
  const system = /(iPhone|iPad|Android|Windows|Macintosh|CrOS|Linux)/.exec(text)?.[1];
  const browser = /(Edg|OPR|Firefox|FxiOS|CriOS|Chrome|Safari)\/[\d.]+/.exec(text)?.[0].replace(/\.[\d.]*$/, '').replace('/', ' ');
  return [browser, system].filter(Boolean).join(', ') || text || t('session.unknown');
}

// tokens lists tokens that are in force; end ends one of them.
export function tokens(list, end) {
  return h('ul', {class: 'cards'}, list.filter(x => !x.withdrawn).map(x => h('li', {class: 'card'},
    h('p', {class: 'card-title'}, x.purpose),
    h('p', {class: 'hint'}, [t('role.' + x.role), t('token.made', {day: day(x.made)}), x.ends ? t('token.ends', {day: day(x.ends)}) : t('token.endless'), x.used ? t('token.used', {day: day(x.used)}) : t('token.unused')].join(' · ')),
    button(t('token.end'), () => end(x), 'quiet'))));
}

// wish makes a token, whose text is shown this once.
function wish(who, secret) {
  const purpose = h('input', {type: 'text', autocomplete: 'off', required: true, maxlength: '200'});
  let days = 365;
  const wrong = h('p', {class: 'wrong', role: 'alert'});
  const make = async event => {
    event.preventDefault();
    try {
      const got = await sync.call('POST', '/api/tokens', {purpose: purpose.value, role: '', days});
      secret.replaceChildren(h('section', {class: 'care'}, h('h2', {}, t('token.once')), h('p', {class: 'code', 'data-token': got.token}, got.token), h('p', {}, t('token.how'))));
      purpose.value = wrong.textContent = '';
      say(t('done'));
    } catch (error) {
      wrong.textContent = error.message;
    }
  };
  return h('form', {onsubmit: make}, field('purpose', t('token.purpose'), purpose, t('token.purpose.hint')),
    choices('days', t('token.days'), [30, 365, 0].map(d => [d, d ? n('days', d) : t('token.endless')]), days, v => { days = v; }), wrong,
    h('button', {type: 'submit', class: 'main'}, t('token.make')));
}
