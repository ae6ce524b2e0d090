import {Text} from 'ink';
import {createContext, memo, useContext} from 'react';
import {asciiGlyphs, drawsUnicode, type Environment, type Glyphs, unicodeGlyphs} from './glyphs.ts';
import {cutLine, isSameLine, type Line, toHeight} from './line.ts';
import {colourDepthOf, type Meaning, type Theme, themeFor} from './theme.ts';

/** How this terminal is drawn on: colours by meaning, characters by use. */
export interface Look {
	readonly theme: Theme;
	readonly glyphs: Glyphs;
}

export const plainLook: Look = {theme: themeFor('none'), glyphs: asciiGlyphs};

/** @param bits Colour depth that the output stream reports: 1, 4, 8 or 24. */
export function lookFor(environment: Environment, bits: number, ascii = false): Look {
	return {
		theme: themeFor(colourDepthOf(environment, bits)),
		glyphs: ascii || !drawsUnicode(environment) ? asciiGlyphs : unicodeGlyphs,
	};
}

export const LookContext = createContext<Look>(plainLook);

export function useLook(): Look {
	return useContext(LookContext);
}

/** Text by what it means. */
export function Say({as = 'plain', children}: {readonly as?: Meaning; readonly children: string}) {
	return <Text {...useLook().theme[as]}>{children}</Text>;
}

/** Rows of the screen, each cut to `width`; exactly `height` rows when one is given. */
export function Lines({
	lines,
	width,
	height = lines.length,
}: {
	readonly lines: readonly Line[];
	readonly width: number;
	readonly height?: number;
}) {
	const look = useLook();
	return toHeight(lines, height).map((row, index) => (
		// Rows have no identity but their place.
		// biome-ignore lint/suspicious/noArrayIndexKey: see above
		<Row key={index} row={row} width={width} look={look} />
	));
}

interface RowProps {
	readonly row: Line;
	readonly width: number;
	readonly look: Look;
}

/** Most keys change a row or two: the others are not worked out again. */
const Row = memo(
	({row, width, look: {theme, glyphs}}: RowProps) => (
		<Text wrap="truncate">
			{row.length === 0 ? ' ' : null}
			{cutLine(row, width, glyphs.cut).map((piece, at) => (
				// biome-ignore lint/suspicious/noArrayIndexKey: a piece has no identity but its place
				<Text key={at} {...theme[piece.as]}>
					{piece.text}
				</Text>
			))}
		</Text>
	),
	(before, after) => before.width === after.width && before.look === after.look && isSameLine(before.row, after.row),
);
