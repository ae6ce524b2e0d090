import {type Guitar, stringAt, withString} from './guitar.ts';
import {rigOf, speakingM} from './rig.ts';

/** Wire let off the peg until this string hangs by `slackM` with the plate as it stands; the bridge has not moved yet. */
export function loosened(guitar: Guitar, string: number, slackM: number): Guitar {
	const line = rigOf(guitar).lines[string]!;
	const {behindPathM} = stringAt(guitar, string).seat;
	const frontPathM = speakingM(line, guitar.angleRad) + line.extraM;
	const ratio = 1 + slackM / (frontPathM + behindPathM);
	return withString(guitar, string, {frontM: frontPathM * ratio, behindM: behindPathM * ratio});
}
