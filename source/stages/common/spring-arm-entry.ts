import type {Entry} from '../../session/entry/entry.ts';
import {readLength} from '../../session/entry/measures.ts';
import {springArm as limit} from '../../session/limits.ts';
import type {InstrumentSheet} from '../../session/sheet.ts';

/** What a length from the knife edges to the spring hooks looks like. */
export const springArmExample = `${limit.example} mm`;

/** That length as somebody measured it, mm. */
export function readSpringArm(text: string, units: InstrumentSheet['units']): Entry<number> {
	const asked = {
		what: 'a spring arm',
		range: [limit.low, limit.high],
		usual: [30, 50],
		exampleMm: limit.example,
	} as const;
	return readLength(text, units, asked);
}
