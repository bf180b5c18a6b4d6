using System.Collections.Immutable;

namespace Spurless.Circuits.Relays;

/// <summary>What a transmitter sends, as the amplitude on the line over its greatest, by time.</summary>
public abstract class Keying
{
    /// <summary>Times in seconds at which it jumps or bends, rising; the last is its end.</summary>
    public abstract ImmutableArray<double> BreaksS { get; }

    /// <summary>How short a step must be to follow it between breaks, in seconds; infinity where it stands.</summary>
    public abstract double FollowS { get; }

    /// <summary>Amplitude over its greatest, and its slope per second, right after a break or between two.</summary>
    /// <param name="part">Between which breaks: 0 before the first.</param>
    /// <param name="atS">Time in seconds.</param>
    public abstract (double Amplitude, double Slope) At(int part, double atS);

    /// <summary>A carrier that begins at once, stands, and ends.</summary>
    /// <param name="onS">How long it stands, in seconds.</param>
    /// <param name="restS">How long to look on after it, in seconds; 0 for none.</param>
    public static Keying Carrier(double onS, double restS = 0) => new Elements(restS > 0 ? [onS, restS] : [onS]);

    /// <summary>
    /// A carrier keyed in Morse with the word PARIS over and over, of 50 dots (ITU-R M.1677-1 has the lengths of elements and spaces; that
    /// PARIS stands for a word is common practice).
    /// </summary>
    /// <param name="wordsAMinute">Speed in words a minute, above 0.</param>
    /// <param name="words">How many words.</param>
    public static Keying Morse(double wordsAMinute, int words)
    {
        const string Paris = "1331 13 131 11 111"; // lengths of marks in dots, letters apart
        double dot = 1.2 / wordsAMinute;
        List<double> runs = [];
        for (int word = 0; word < words; word++)
        {
            for (int i = 0; i < Paris.Length; i++)
            {
                if (Paris[i] == ' ')
                {
                    runs[^1] = 3 * dot;
                    continue;
                }

                runs.Add((Paris[i] - '0') * dot);
                runs.Add(dot);
            }

            runs[^1] = 7 * dot;
        }

        return new Elements([.. runs[..^1]]);
    }

    /// <summary>Single sideband with two equal tones: the amplitude is <c>|cos(pi d t)|</c>.</summary>
    /// <param name="apartHz">How far the tones are apart, in hertz, above 0.</param>
    /// <param name="lastS">How long it lasts, in seconds.</param>
    public static Keying TwoTones(double apartHz, double lastS) => new Beat(apartHz, lastS);

    // On, off, on, off ..., beginning with on.
    private sealed class Elements(double[] runs) : Keying
    {
        public override ImmutableArray<double> BreaksS { get; } = Sums(runs);

        public override double FollowS => double.PositiveInfinity;

        public override (double Amplitude, double Slope) At(int part, double atS) => (part % 2 == 0 ? 1 : 0, 0);

        private static ImmutableArray<double> Sums(double[] runs)
        {
            double sum = 0;
            return [.. runs.Select(r => sum += r)];
        }
    }

    private sealed class Beat(double apartHz, double lastS) : Keying
    {
        public override ImmutableArray<double> BreaksS { get; } =
        [
            .. Enumerable.Range(0, (int)Math.Ceiling(apartHz * lastS)).Select(k => (k + 0.5) / apartHz).Where(t => t < lastS), lastS,
        ];

        public override double FollowS => 1 / apartHz / 24;

        public override (double Amplitude, double Slope) At(int part, double atS)
        {
            (double sine, double cosine) = Math.SinCos(Math.PI * apartHz * atS);
            int sign = part % 2 == 0 ? 1 : -1; // the cosine changes its sign at every break
            return (Math.Max(0, sign * cosine), -sign * Math.PI * apartHz * sine);
        }
    }
}
