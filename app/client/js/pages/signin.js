// Signing in, where the server asks for it.
import {alarm, h} from '../dom.js';
import {field} from '../parts.js';
import {remember, setting} from '../store.js';
import * as sync from '../sync.js';
import {t} from '../texts.js';

export default async function signIn() {
  const known = await setting('account', await setting('name', ''));
  const name = () => h('input', {type: 'text', autocomplete: 'username', autocapitalize: 'none', value: known});
  return {title: t('sign.in'), back: '#/', content: [withPassword(name()), h('details', {class: 'more'}, h('summary', {}, t('code')), withCode(name()))]};
}

function withPassword(name) {
  const password = h('input', {type: 'password', autocomplete: 'current-password'});
  const enter = async event => {
    event.preventDefault();
    await entered(() => sync.signIn(name.value.trim(), password.value), 'sign.in.refused');
    password.value = '';
  };
  return h('form', {onsubmit: enter}, field('account', t('sign.in.name'), name), field('password', t('sign.in.password'), password),
    h('button', {type: 'submit', class: 'main'}, t('sign.in')));
}

// withCode lets somebody who was invited choose a password.
function withCode(name) {
  const code = h('input', {type: 'text', autocomplete: 'one-time-code', autocapitalize: 'none', spellcheck: 'false', required: true});
  const [one, two] = [0, 1].map(() => h('input', {type: 'password', autocomplete: 'new-password', required: true, minlength: '15'}));
  const enter = async event => {
    event.preventDefault();
    if (one.value !== two.value) { alarm(t('password.differ')); return; }
    await entered(() => sync.choosePassword(name.value.trim(), code.value, one.value), 'code.refused');
  };
  return h('form', {onsubmit: enter}, h('p', {}, t('code.under')), field('code-account', t('sign.in.name'), name), field('code', t('code.code'), code),
    field('one', t('password.one'), one, t('password.hint')), field('two', t('password.two'), two),
    h('button', {type: 'submit', class: 'main'}, t('code.go')));
}

// entered goes on to where somebody wanted to be, or tells why they were not let in.
async function entered(ask, refused) {
  alarm('');
  let response;
  try {
    response = await ask();
  } catch {
    alarm(t('offline'));
    return;
  }
  if (response.status === 401) alarm(t(refused));
  else if (response.status === 429) alarm(t('sign.in.later', {n: response.headers.get('Retry-After')}));
  else if (!response.ok) alarm(await response.text());
  else {
    const who = await response.json();
    await remember('account', who.name);
    if (!await setting('name', '')) await remember('name', who.name);
    const label = sessionStorage.getItem('label');
    sessionStorage.removeItem('label');
    location.replace(label ? '/o/' + encodeURIComponent(label) : '#/');
  }
}
