// Who may reach the book: whoever keeps accounts invites people, gives them roles, and shuts them out.
import {alarm, h, say} from '../dom.js';
import {button, choices, field, link, said} from '../parts.js';
import * as sync from '../sync.js';
import {day, moment, n, or, t} from '../texts.js';
import {show} from '../main.js';
import {again, sessions, tokens} from './own.js';

// page is the list, the record of what happened at the door, or one account.
export default async function page(of) {
  const who = await sync.session();
  if (!who?.keeps) return {title: t('accounts'), back: '#/settings', content: h('p', {}, t(who ? 'accounts.not' : 'offline'))};
  if (of === 'record') return record();
  return of ? one(of, who) : list(who);
}

const roles = ['technician', 'office', 'owner'];

// role is what somebody may do, with whose jobs an owner sees.
const role = a => t('role.' + a.role) + (a.customer ? ` · ${a.customer}` : '');

// standing tells what keeps an account from being used as any other.
const standing = a => a.disabled ? t('account.disabled') : a.invited ? t('account.invited', {day: moment(a.invited)}) : '';

async function list(who) {
  const {accounts, customers} = await sync.call('GET', '/api/accounts');
  const code = h('div', {'aria-live': 'polite'});
  const name = h('input', {type: 'text', autocomplete: 'off', required: true});
  const chosen = roleOf('new', '', '', customers);
  const begin = async event => {
    event.preventDefault();
    if (!name.value.trim()) { name.focus(); return; }
    if (await done(() => sync.call('POST', '/api/accounts', {name: name.value, ...chosen.value()}), got => reveal(code, got))) {
      name.value = '';
      rows.append(row((await sync.call('GET', '/api/accounts')).accounts.at(-1)));
    }
  };
  const rows = h('nav', {class: 'rows', 'aria-label': t('accounts')}, accounts.map(row));
  return {title: t('accounts'), back: '#/settings', content: [
    h('p', {class: 'hint'}, t('accounts.hint')),
    rows,
    link('#/accounts/record', t('record'), t('record.under')),
    code,
    h('details', {class: 'more'}, h('summary', {}, t('invite')), who.fresh
      ? h('form', {onsubmit: begin}, field('new-name', t('invite.name'), name, t('invite.name.hint')), chosen.element, h('button', {type: 'submit', class: 'main'}, t('invite.begin')))
      : again(who)),
  ]};
}

const row = a => link('#/accounts/' + a.id, a.name, [role(a), standing(a)].filter(Boolean).join(' · '));

// roleOf asks for a role, and of an owner for the customer.
function roleOf(id, now, customer, customers) {
  let picked = now;
  const input = h('input', {type: 'text', autocomplete: 'off', value: customer, list: id + '-customers'});
  const whose = h('div', {hidden: now !== 'owner'}, field(id + '-customer', t('role.customer'), input, t('role.customer.hint')), h('datalist', {id: id + '-customers'}, customers.map(c => h('option', {value: c}))));
  return {
    element: h('div', {}, choices(id + '-role', t('role'), roles.map(r => [r, `${t('role.' + r)}: ${t('role.' + r + '.may')}`]), now, v => { picked = v; whose.hidden = v !== 'owner'; }), whose),
    value: () => ({role: picked, customer: picked === 'owner' ? input.value.trim() : ''}),
  };
}

// reveal shows a code, which is told this once, and leads there.
function reveal(code, got) {
  code.replaceChildren(shown(got));
  code.scrollIntoView({block: 'center'});
}

function shown(got) {
  return h('section', {class: 'care'}, h('h2', {}, t('code.for', {name: got.name})), h('p', {class: 'code', 'data-code': got.code}, got.code),
    h('p', {}, t('code.how', {name: got.name, address: location.origin, day: moment(got.invited)})));
}

// done does something that changes accounts, and tells what was refused. Where the password has to be given
// once more, the page asks for it.
async function done(change, then = () => show(true)) {
  alarm('');
  try {
    const got = await change();
    await then(got);
    say(t('done'));
    return true;
  } catch (error) {
    const who = await sync.session();
    if (who && !who.fresh) await show(true);
    alarm(error.message);
    return false;
  }
}

async function one(id, who) {
  const path = '/api/accounts/' + encodeURIComponent(id);
  const [a, {customers}] = await Promise.all([sync.call('GET', path), sync.call('GET', '/api/accounts')]);
  const code = h('div', {'aria-live': 'polite'});
  const chosen = roleOf('role', a.role, a.customer, customers);
  const part = (title, why, ...content) => h('details', {class: 'more'}, h('summary', {}, t(title)), h('p', {}, t(why)), who.fresh ? content : again(who));
  return {title: a.name, under: [role(a), standing(a)].filter(Boolean).join(' · '), back: '#/accounts', place: t('accounts'), content: [
    code,
    part('account.role', 'account.role.why', chosen.element, button(t('save'), () => done(() => sync.call('PUT', path + '/role', chosen.value())), 'main')),
    part('account.reset', 'account.reset.why', button(t('account.reset.do'), () => done(() => sync.call('POST', path + '/reset'), got => reveal(code, got)), 'main')),
    a.disabled
      ? part('account.enable', 'account.enable.why', button(t('account.enable.do'), () => done(() => sync.call('PUT', path + '/disabled', {disabled: false})), 'main'))
      : part('account.disable', 'account.disable.why', button(t('account.disable.do'), () => done(() => sync.call('PUT', path + '/disabled', {disabled: true})), 'main')),
    h('section', {}, h('h2', {}, n('sessions', a.sessions.length)), sessions(a.sessions),
      a.sessions.length ? part('account.out', 'account.out.why', button(t('account.out.do'), () => done(() => sync.call('DELETE', path + '/sessions')), 'main')) : ''),
    h('section', {}, h('h2', {}, n('tokens', a.tokens.filter(x => !x.withdrawn).length)), tokens(a.tokens, x => done(() => sync.call('DELETE', '/api/tokens/' + x.id)))),
    h('p', {class: 'hint'}, t('account.made', {day: day(a.made)})),
  ]};
}

async function record() {
  const events = await sync.call('GET', '/api/sign-ins?limit=200');
  return {title: t('record'), back: '#/accounts', place: t('accounts'), content: [
    h('p', {class: 'hint'}, t('record.hint')),
    h('ol', {class: 'cards'}, events.map(e => h('li', {class: 'card'},
      h('p', {class: 'card-title'}, or('door.' + e.what, said(e.what)), e.name ? ` · ${e.name}` : ''),
      e.detail ? h('p', {}, said(e.detail)) : '',
      h('p', {class: 'hint'}, moment(e.at), ' · ', e.address || t('record.here'))))),
  ]};
}
