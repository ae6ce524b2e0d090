import type {Bench} from '../../session/bench.ts';
import {goAnywayKey} from '../common/going.ts';
import type {KeyAction} from '../stage.ts';
import {id, stepOf} from './task.ts';

export function keys(bench: Bench): readonly KeyAction[] {
	return stepOf(bench).kind === 'done' ? [] : [goAnywayKey(id)];
}
