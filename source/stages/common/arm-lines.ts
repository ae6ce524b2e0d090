import type {Bench} from '../../session/bench.ts';
import {formatCents} from '../../units/cents.ts';
import {arm as words} from './words.ts';

/** How far the arm goes either way with the plate as wished, by string; none while no string is on. */
export function armLines({strings}: Bench): readonly string[] {
	const reach = strings.flatMap(({string, arm}) => {
		if (!arm) return [];
		const dive = arm.diveCents === undefined ? words.slack : formatCents(arm.diveCents, 0);
		return [words.each(string, formatCents(arm.pullUpCents, 0), dive)];
	});
	return reach.length === 0 ? [] : [words.all(reach.join(', '))];
}
