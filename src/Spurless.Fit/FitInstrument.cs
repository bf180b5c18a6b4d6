namespace Spurless.Fit;

/// <summary>What an error of the instrument does to an S-parameter.</summary>
internal enum ErrorKind
{
    /// <summary>It is added.</summary>
    Directivity,

    /// <summary>What goes back to the port that drives comes again, in its reflection.</summary>
    SourceInReflection,

    /// <summary>What goes on to the port that listens comes back, in the other's reflection.</summary>
    LoadInReflection,

    /// <summary>What goes back to the port that drives comes again, in a transmission.</summary>
    SourceInTransmission,

    /// <summary>What goes on to the port that listens comes back and comes again, in a transmission.</summary>
    LoadInTransmission,

    /// <summary>It multiplies.</summary>
    Tracking,
}

/// <summary>
/// One error of an instrument as it stands in one S-parameter: its place among the unknowns, its kind, its polynomial, and whether it is
/// the imaginary part.
/// </summary>
internal readonly record struct ErrorTerm(int At, ErrorKind Kind, int Order, bool Imaginary);

/// <summary>
/// The instrument's part of a fit: a gain of each S-parameter, a delay of each port, and residual directivity, match of source and load,
/// and
/// tracking, slowly turning over the sweep (<see cref="SmoothTerms"/>). All have a size beforehand and bounds.
/// </summary>
/// <remarks>
/// The usual error model of an analyser with residuals d, s (source), l (load), t in place of its errors (textbooks; from memory), port 1
/// driving:
/// <c>M11 = d + (1 + t) G / (1 - s G)</c>, <c>G = S11 + l S21 S12 / (1 - l S22)</c>, <c>M21 = (1 + t) S21 / (1 - s S11 - l S22 + s l (S11
/// S22 - S21 S12))</c>,
/// and the same with the ports exchanged. S-parameters other than the one in question are taken from <see cref="FitData.Clean"/>.
/// Of magnitudes, which lack the phases for it, transmissions have tracking alone, of the size of all three.
/// </remarks>
internal sealed class FitInstrument
{
    /// <summary>Bounds, in sigmas.</summary>
    public const double MostSigmas = 4;

    private readonly List<double> _sigmas = [];
    private readonly List<(InstrumentError Error, int At, bool IsComplex)> _named = [];
    private readonly ErrorTerm[][] _terms;

    /// <param name="data">The sweep.</param>
    /// <param name="errors">How large the errors are beforehand.</param>
    /// <param name="first">Place of the first of its unknowns.</param>
    public FitInstrument(FitData data, InstrumentErrors errors, int first)
    {
        int traces = data.Parameters.Length;
        GainAt = new int[traces];
        for (int t = 0; t < traces; t++)
        {
            GainAt[t] = first + _sigmas.Count;
            _named.Add((new(InstrumentFigure.Gain, data.Parameters[t], 0), GainAt[t], !data.Magnitude[t]));
            _sigmas.AddRange(data.Magnitude[t] ? [errors.GainDb] : [errors.Gain, errors.Gain]);
        }

        bool complex = Array.Exists(data.Magnitude, static m => !m);
        DelayAt = complex ? first + _sigmas.Count : -1;
        DelayUnitS = errors.DelayS;
        if (complex)
        {
            _named.Add((new(InstrumentFigure.ReferencePlane, null, 1), first + _sigmas.Count, false));
            _named.Add((new(InstrumentFigure.ReferencePlane, null, 2), first + _sigmas.Count + 1, false));
            _sigmas.AddRange([1, 1]);
        }

        List<ErrorTerm>[] terms = [.. Enumerable.Range(0, traces).Select(static _ => new List<ErrorTerm>())];
        Functions = [];
        if (errors.Directivity > 0)
        {
            SmoothTerms smooth = new(data.FrequenciesHz, data.Padded);
            Functions = smooth.Functions;
            Residuals(data, errors, smooth, first, terms);
        }

        _terms = [.. terms.Select(static t => t.ToArray())];
        Sigmas = [.. _sigmas];
    }

    /// <summary>One sigma of each.</summary>
    public double[] Sigmas { get; }

    /// <summary>Place of each trace's gain.</summary>
    public int[] GainAt { get; }

    /// <summary>Place of port 1's delay, port 2's behind it; -1 where only magnitudes were measured.</summary>
    public int DelayAt { get; }

    /// <summary>Unit of the delays in seconds, and one sigma of them.</summary>
    public double DelayUnitS { get; }

    /// <summary>The polynomials at the sweep's points.</summary>
    public double[][] Functions { get; }

    /// <summary>What can be named, with the place of its real part, or its only one.</summary>
    public IReadOnlyList<(InstrumentError Error, int At, bool IsComplex)> Named => _named;

    /// <summary>The residual terms of a trace.</summary>
    public ErrorTerm[] Terms(int trace) => _terms[trace];

    private void Residuals(FitData data, InstrumentErrors errors, SmoothTerms smooth, int first, List<ErrorTerm>[] terms)
    {
        int[] trace = [.. Enum.GetValues<SweepParameter>().Select(p => Array.IndexOf(data.Parameters, p))];
        bool complex = !data.Magnitude[0];
        foreach (int port in (int[])[0, 1])
        {
            SweepParameter own = port == 0 ? SweepParameter.S11 : SweepParameter.S22, other = port == 0 ? SweepParameter.S22
                : SweepParameter.S11;
            SweepParameter outward = port == 0 ? SweepParameter.S21 : SweepParameter.S12, inward = port == 0 ? SweepParameter.S12
                : SweepParameter.S21;
            InstrumentError Of(InstrumentFigure figure) => new(figure, null, port + 1);
            bool through = complex && (trace[(int)SweepParameter.S21] >= 0 || trace[(int)SweepParameter.S12] >= 0);
            Add(Of(InstrumentFigure.Directivity), errors.Directivity, false, (own, ErrorKind.Directivity, true));
            Add(Of(InstrumentFigure.SourceMatch), errors.SourceMatch, false, (own, ErrorKind.SourceInReflection, true),
                (outward, ErrorKind.SourceInTransmission, through));
            Add(Of(InstrumentFigure.LoadMatch), errors.LoadMatch, false, (other, ErrorKind.LoadInReflection, through),
                (inward, ErrorKind.LoadInTransmission, through));
        }

        for (int t = 0; t < data.Parameters.Length; t++)
        {
            bool transmission = data.Parameters[t] is SweepParameter.S21 or SweepParameter.S12;
            double size = !complex && transmission
                ? Math.Sqrt((errors.Tracking * errors.Tracking) + (errors.SourceMatch * errors.SourceMatch)
                    + (errors.LoadMatch * errors.LoadMatch))
                : errors.Tracking;
            Add(null, size, true, (data.Parameters[t], ErrorKind.Tracking, true));
        }

        void Add(InstrumentError? error, double rms, bool withoutConstant, params (SweepParameter Of, ErrorKind Kind, bool Seen)[] where)
        {
            (int Trace, ErrorKind Kind)[] there = [.. where.Where(p => p.Seen && trace[(int)p.Of] >= 0)
                .Select(p => (trace[(int)p.Of], p.Kind))];
            if (there.Length == 0)
            {
                return;
            }

            if (error is { } named)
            {
                _named.Add((named, first + _sigmas.Count, true));
            }

            bool realOnly = !complex && there.All(static p => p.Kind == ErrorKind.Tracking);
            for (int k = withoutConstant ? 1 : 0; k < smooth.Shares.Length; k++)
            {
                foreach (bool imaginary in (bool[])(realOnly ? [false] : [false, true]))
                {
                    int at = first + _sigmas.Count;
                    _sigmas.Add(rms * smooth.Shares[k] / Math.Sqrt(2));
                    foreach ((int t, ErrorKind kind) in there)
                    {
                        terms[t].Add(new ErrorTerm(at, kind, k, imaginary));
                    }
                }
            }
        }
    }
}
