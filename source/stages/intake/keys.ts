import type {Bench} from '../../session/bench.ts';
import type {KeyAction} from '../stage.ts';
import {areSpringsOffered, isTestOffered} from './change.ts';
import {goTo, placeOf} from './place.ts';
import {words} from './words.ts';

export function keys(bench: Bench): readonly KeyAction[] {
	const {kind} = placeOf(bench);
	const test: KeyAction = {key: 't', label: words.keys.test, does: {kind: 'deeds', deeds: [goTo('test')]}};
	const springs: KeyAction = {key: 'w', label: words.keys.springs, does: {kind: 'deeds', deeds: [goTo('springs')]}};
	const leave: KeyAction = {key: 'x', label: words.keys.noTest, does: {kind: 'deeds', deeds: [goTo('change')]}};
	const menu: KeyAction = {key: 'm', label: words.keys.menu, does: {kind: 'deeds', deeds: [goTo('menu')]}};
	const look: KeyAction = {key: 'k', label: words.keys.look, does: {kind: 'deeds', deeds: [goTo('look')]}};
	switch (kind) {
		case 'look':
		case 'before':
			return [menu];
		case 'test':
			return [leave];
		case 'change':
			return [...(areSpringsOffered(bench) ? [springs] : []), ...(isTestOffered(bench) ? [test] : []), menu, look];
		default:
			return [];
	}
}
