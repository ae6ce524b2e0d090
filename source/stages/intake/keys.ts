import type {Bench} from '../../session/bench.ts';
import type {KeyAction} from '../stage.ts';
import {goTo, placeOf} from './place.ts';
import {words} from './words.ts';

export function keys(bench: Bench): readonly KeyAction[] {
	const {kind} = placeOf(bench);
	const menu: KeyAction = {key: 'm', label: words.keys.menu, does: {kind: 'deeds', deeds: [goTo('menu')]}};
	const look: KeyAction = {key: 'k', label: words.keys.look, does: {kind: 'deeds', deeds: [goTo('look')]}};
	return kind === 'look' ? [menu] : kind === 'change' ? [menu, look] : [];
}
