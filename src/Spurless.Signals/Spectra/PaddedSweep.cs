namespace Spurless.Signals.Spectra;

/// <summary>A line that fell further than the pad: the instrument made it.</summary>
/// <param name="Line">The line, as the sweep without the pad shows it.</param>
/// <param name="FellDb">How far it fell behind the pad.</param>
/// <param name="IsBound">Whether it sank into the noise: then it fell by this at least.</param>
public sealed record InstrumentLine(SpectrumLine Line, double FellDb, bool IsBound);

/// <summary>
/// The lines of a sweep told apart by a second one behind a pad of a decibels: a signal falls by a, a product of order n that the
/// instrument makes falls by n a (power series
/// of a memoryless stage, docs/method/product-levels.md).
/// </summary>
/// <param name="Signals">Lines that fell as a signal does.</param>
/// <param name="Untold">Lines that sank into the noise before their fall could tell.</param>
/// <param name="MadeInside">Lines that fell by more than one and a half times the pad.</param>
public sealed record PaddedSweep(IReadOnlyList<SpectrumLine> Signals, IReadOnlyList<SpectrumLine> Untold,
    IReadOnlyList<InstrumentLine> MadeInside)
{
    /// <summary>A line that falls by more than so many times the pad is made in the instrument.</summary>
    public const double MadeInsideFrom = 1.5;

    /// <summary>Tells the lines apart.</summary>
    /// <param name="lines">Lines of the first sweep.</param>
    /// <param name="padded">The second sweep, at the same frequencies.</param>
    /// <param name="padDb">The pad in dB, above 0.</param>
    public static PaddedSweep Compare(IReadOnlyList<SpectrumLine> lines, LineFinder padded, double padDb)
    {
        ArgumentNullException.ThrowIfNull(lines);
        ArgumentNullException.ThrowIfNull(padded);
        List<SpectrumLine> signals = [];
        List<SpectrumLine> untold = [];
        List<InstrumentLine> inside = [];
        foreach (SpectrumLine line in lines)
        {
            double? level = padded.LevelIn(line.Bins);
            double fell = line.LevelDbm - (level ?? padded.HiddenDbm(line.Bins));
            if (fell > MadeInsideFrom * padDb)
            {
                inside.Add(new InstrumentLine(line, fell, level is null));
            }
            else
            {
                (level is null ? untold : signals).Add(line);
            }
        }

        return new PaddedSweep(signals, untold, inside);
    }
}
