// Signing in, where the server asks for it.
import {alarm, h} from '../dom.js';
import {field} from '../parts.js';
import {remember, setting} from '../store.js';
import * as sync from '../sync.js';
import {t} from '../texts.js';

export default async function signIn() {
  const name = h('input', {type: 'text', autocomplete: 'username', autocapitalize: 'none', value: await setting('account', await setting('name', ''))});
  const password = h('input', {type: 'password', autocomplete: 'current-password'});
  const enter = async event => {
    event.preventDefault();
    alarm('');
    let response;
    try {
      response = await sync.signIn(name.value.trim(), password.value);
    } catch {
      alarm(t('offline'));
      return;
    }
    if (response.status === 401) alarm(t('sign.in.refused'));
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
    password.value = '';
  };
  return {title: t('sign.in'), back: '#/', content: h('form', {onsubmit: enter},
    field('account', t('sign.in.name'), name),
    field('password', t('sign.in.password'), password),
    h('button', {type: 'submit', class: 'main'}, t('sign.in')))};
}
