import type {Bench} from '../../session/bench.ts';
import {formatCentsUnit} from '../../units/cents.ts';
import {words} from './words.ts';

/** How far the arm goes either way with the plate as it stands, on the strings that go least and most. */
export function armLines({strings}: Bench): readonly string[] {
	const reach = strings.flatMap(({string, arm}) => (arm ? [{string, ...arm}] : []));
	const ordered = reach.toSorted((a, b) => a.pullUpCents - b.pullUpCents);
	const [least, most] = [ordered[0], ordered.at(-1)];
	if (!least || !most) return [];
	return [least, ...(most === least ? [] : [most])].map(({string, pullUpCents, diveCents}) => {
		const dive = diveCents === undefined ? words.done.toSlack : formatCentsUnit(diveCents, 0);
		return words.done.arm(string, formatCentsUnit(pullUpCents, 0), dive);
	});
}
