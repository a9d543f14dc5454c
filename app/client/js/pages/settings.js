// Language, units and the name that stands beside everything entered here.
import {h, say} from '../dom.js';
import {button, field, link, picks} from '../parts.js';
import {remember, setting} from '../store.js';
import * as sync from '../sync.js';
import {choose, languages, reader, t} from '../texts.js';
import {came, show} from '../main.js';

export default async function settings() {
  const name = h('input', {type: 'text', autocomplete: 'name', value: await setting('name', '')});
  const keep = () => remember('name', name.value.trim());
  const pick = async (language, units) => { await keep(); await choose(language, units); await show(true); say(t('saved')); };
  const who = await sync.session();
  const out = async () => { await sync.signOut(); location.hash = '#/sign-in'; };
  return {title: t('settings'), back: came(), content: [
    field('name', t('settings.name'), name, t('settings.name.hint')),
    picks('language', t('settings.language'), Object.entries(languages), reader.language, l => pick(l, reader.units)),
    picks('units', t('settings.units'), [['', t('units.job')], ['us', t('units.us')], ['si', t('units.si')]], reader.units, u => pick(reader.language, u)),
    who?.needed ? h('section', {}, who.name
      ? [h('p', {}, t('signed.in', {name: who.name})),
        h('nav', {class: 'rows', 'aria-label': t('own')}, link('#/own', t('own'), t('own.under')), who.keeps ? link('#/accounts', t('accounts'), t('accounts.under')) : ''),
        button(t('sign.out'), out)]
      : link('#/sign-in', t('sign.in'))) : '',
    h('section', {class: 'care'}, h('h2', {}, t('cautions')), h('p', {}, t('certifies'))),
  ], action: button(t('save'), async () => { await keep(); say(t('saved')); location.hash = came(); }, 'main')};
}
