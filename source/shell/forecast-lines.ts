import type {StringNumber} from '../music/string-number.ts';
import type {Act, Bench, Forecast} from '../session/bench.ts';
import {wrapTo} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {type Line, span} from '../terminal/line.ts';
import {formatSpread, halfWidth} from '../units/spread.ts';
import {formatLengthSpread} from '../units/length.ts';
import {formatPercent} from '../units/quantities.ts';

/**
 * What the act ahead will do through the bridge, said before it is done. One
 * paragraph in any number of rows: what endangers a string, how far the others
 * move, whether they come back, how the plate tips.
 */
export function forecastLines(
	act: Act | undefined,
	bench: Bench,
	{width, rows, glyphs}: {readonly width: number; readonly rows: number; readonly glyphs: Glyphs},
): readonly Line[] {
	if (act === undefined) return [];
	const forecast = bench.forecast(act);
	const said = forecastWords(act, forecast, bench);
	if (said === undefined) return [];
	const mark = `${glyphs.attention} `;
	const as = forecast.matters || forecast.strain ? 'attention' : 'quiet';
	return wrapTo(said, width - mark.length, rows, glyphs.cut).map((text, index) => [
		span(index === 0 && as === 'attention' ? mark : ' '.repeat(mark.length), as),
		span(text, as === 'attention' ? 'plain' : 'quiet'),
	]);
}

/** The same in words; undefined when the act moves nothing else. */
export function forecastWords(act: Act, forecast: Forecast, bench: Bench): string | undefined {
	const {moves, strain, comesBack, tipMm, matters} = forecast;
	const parts: string[] = [];
	if (strain) parts.push(`String ${strain.string} would stand at ${formatPercent(strain.share)} of its breaking load.`);
	if (bench.blocked && act.kind !== 'unsupport' && moves.length === 0) {
		parts.push('The bridge is blocked: no other string moves.');
		return parts.join(' ');
	}
	if (moves.length > 0 && !matters) {
		parts.push(`${actWords(act)} moves no other string by more than ${largest(moves)} cents.`);
		return parts.join(' ');
	}
	if (moves.length === 0) return parts.length > 0 ? parts.join(' ') : undefined;
	const each = moves.map(({string, cents}) => `${string}:${shortSpread(cents)}`).join(', ');
	parts.push(`${actWords(act)} moves the others (cents): ${each}.`);
	parts.push(afterwards(act, comesBack));
	if (Math.abs(tipMm.mean) >= 0.05)
		parts.push(
			`Tail ${tipMm.mean > 0 ? 'up' : 'down'} ${formatLengthSpread({mean: Math.abs(tipMm.mean), sd: tipMm.sd}, bench.sheet.units)}.`,
		);
	return parts.join(' ');
}

function afterwards({kind}: Act, comesBack: boolean): string {
	if (comesBack) return 'They come back when it is back; leave them.';
	return kind === 'remove'
		? 'They come back with a like string on and at pitch.'
		: 'They stay there until they are tuned.';
}

function actWords(act: Act): string {
	switch (act.kind) {
		case 'turn':
			return `Turning string ${act.string}`;
		case 'slacken':
			return act.strings.length === 1
				? `Slackening string ${act.strings[0]}`
				: `Slackening strings ${act.strings.join(', ')}`;
		case 'remove':
			return `Taking off string ${act.string}`;
		case 'claw':
			return 'Turning the claw screws';
		case 'unsupport':
			return 'Taking the support out';
		case 'clamp':
			return 'Clamping the nut';
	}
}

/** `−3.1±0.4`: without the blank that wider places have. */
function shortSpread(cents: {readonly mean: number; readonly sd: number}): string {
	const decimals = Math.abs(cents.mean) >= 9.95 || halfWidth(cents) >= 9.95 ? 0 : 1;
	return formatSpread(cents, decimals, {signed: true}).replace(' ', '');
}

function largest(
	moves: readonly {readonly string: StringNumber; readonly cents: {readonly mean: number; readonly sd: number}}[],
): string {
	const most = Math.max(...moves.map(({cents}) => Math.abs(cents.mean) + halfWidth(cents)));
	return formatSpread({mean: most, sd: 0}, 1).split(' ')[0]!;
}
