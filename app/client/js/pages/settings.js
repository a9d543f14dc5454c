// Language, units and the name that stands beside everything entered here.
import {h, say} from '../dom.js';
import {button, choices, field} from '../parts.js';
import {remember, setting} from '../store.js';
import {choose, languages, reader, t} from '../texts.js';
import {show} from '../main.js';

export default async function settings() {
  const name = h('input', {type: 'text', autocomplete: 'name', value: await setting('name', '')});
  const pick = async (language, units) => { await choose(language, units); await show(true); say(t('saved')); };
  return {title: t('settings'), back: '#/', content: [
    field('name', t('settings.name'), name, t('settings.name.hint')),
    choices('language', t('settings.language'), Object.entries(languages), reader.language, l => pick(l, reader.units)),
    choices('units', t('settings.units'), [['', t('units.job')], ['us', t('units.us')], ['si', t('units.si')]], reader.units, u => pick(reader.language, u)),
    h('section', {class: 'care'}, h('h2', {}, t('cautions')), h('p', {}, t('certifies'))),
  ], action: button(t('save'), async () => { await remember('name', name.value.trim()); say(t('saved')); history.back(); }, 'main')};
}
