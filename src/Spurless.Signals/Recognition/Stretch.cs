using System.Collections.Concurrent;
using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition;

/// <summary>
/// A stretch of audio at the rates the recognisers work with, and where in it something is. A long recording is taken as overlapping
/// stretches; what begins in <see cref="OwnFromS"/> to <see cref="OwnToS"/> is counted in this one.
/// </summary>
internal sealed class Stretch
{
    /// <summary>Rate of <see cref="Wide"/>.</summary>
    public const int WideRate = 48_000;

    /// <summary>Rate of <see cref="Narrow"/>.</summary>
    public const int NarrowRate = 12_000;

    /// <summary>Rate of <see cref="Low"/>.</summary>
    public const int LowRate = 1_000;

    // Filters are constants, and take long to design.
    private static readonly Lazy<Resampler> _toNarrow = new(static () => new Resampler(WideRate, NarrowRate));
    private static readonly Lazy<Resampler> _toLow = new(static () => new Resampler(NarrowRate, LowRate));
    private static readonly ConcurrentDictionary<double, Lazy<Resampler>> _toOthers = [];

    private readonly Dictionary<double, float[]> _others = [];

    private Stretch(double startS, float[] wide, double topHz)
    {
        StartS = startS;
        Wide = wide;
        TopHz = topHz;
        Narrow = _toNarrow.Value.Convert(wide);
        Low = _toLow.Value.Convert(Narrow);
        Speech = BandPass.Speech(Narrow);
    }

    /// <summary>When its first sample was, in seconds from the recording's start.</summary>
    public double StartS { get; }

    /// <summary>How long it is, in seconds.</summary>
    public double LengthS => (double)Wide.Length / WideRate;

    /// <summary>What begins from here on is counted in this stretch, in seconds from the recording's start.</summary>
    public double OwnFromS { get; init; } = double.NegativeInfinity;

    /// <summary>What begins from here on is counted in the next one.</summary>
    public double OwnToS { get; init; } = double.PositiveInfinity;

    /// <summary>Highest frequency that the recording can hold, in hertz.</summary>
    public double TopHz { get; }

    /// <summary>The audio at 48 kHz.</summary>
    public float[] Wide { get; }

    /// <summary>The audio to 5 kHz, at 12 kHz.</summary>
    public float[] Narrow { get; }

    /// <summary>The audio to 400 Hz, at 1 kHz.</summary>
    public float[] Low { get; }

    /// <summary>The audio of 300 to 3,400 Hz, at 12 kHz: where signal to noise is measured.</summary>
    public float[] Speech { get; }

    /// <summary>Where the recognisers of keyed signals look, in seconds from the stretch's start, in order, apart.</summary>
    public List<Span> Active { get; set; } = [];

    /// <summary>
    /// Where a fade took the carrier, or the recorder the samples, in seconds from the stretch's start, in order, apart: what was sent
    /// there is not known.
    /// </summary>
    public IReadOnlyList<Span> Holes { get; init; } = [];

    /// <summary>Makes one from audio at any rate.</summary>
    public static Stretch Make(float[] audio, double rateHz, double startS, double ownFromS = double.NegativeInfinity,
        double ownToS = double.PositiveInfinity, IReadOnlyList<Span>? holes = null) =>
        AtWideRate(Resampler.Convert(audio, rateHz, WideRate), 0.46 * rateHz, startS, ownFromS, ownToS, holes);

    /// <summary>Makes one from audio at 48 kHz that holds frequencies up to <paramref name="topHz"/>.</summary>
    public static Stretch AtWideRate(float[] wide, double topHz, double startS, double ownFromS = double.NegativeInfinity,
        double ownToS = double.PositiveInfinity, IReadOnlyList<Span>? holes = null) => new(startS, wide, topHz)
        {
            OwnFromS = ownFromS,
            OwnToS = ownToS,
            Holes = holes ?? [],
        };

    /// <summary>Which of some samples from a moment on lie in a hole or within a margin of one; null where none does.</summary>
    public bool[]? InHole(double fromS, double rateHz, int count, double marginS)
    {
        bool[]? mask = null;
        foreach (Span hole in Holes)
        {
            int first = Math.Max(0, (int)Math.Floor((hole.FromS - marginS - fromS) * rateHz));
            int behind = Math.Min(count, (int)Math.Ceiling((hole.ToS + marginS - fromS) * rateHz));
            if (behind > first)
            {
                (mask ??= new bool[count]).AsSpan(first, behind - first).Fill(true);
            }
        }

        return mask;
    }

    /// <summary>Whether a hole, or a margin round it, touches a stretch of time, in seconds from the stretch's start.</summary>
    public bool TouchesHole(double fromS, double toS, double marginS)
    {
        foreach (Span hole in Holes)
        {
            if (hole.FromS - marginS < toS && hole.ToS + marginS > fromS)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The audio at yet another rate, one of the few that recognisers want, made once.</summary>
    public float[] At(double rateHz)
    {
        lock (_others)
        {
            if (!_others.TryGetValue(rateHz, out float[]? x))
            {
                int fromHz = rateHz > 10_000 ? WideRate : NarrowRate;
                x = _toOthers.GetOrAdd(rateHz, r => new Lazy<Resampler>(() => new Resampler(fromHz, r))).Value
                    .Convert(fromHz == WideRate ? Wide : Narrow);
                _others.Add(rateHz, x);
            }

            return x;
        }
    }

    /// <summary>The active places, each wider by a margin, joined where they then meet.</summary>
    public List<Span> ActiveWithin(double marginS) =>
        Span.Join(Active.Select(a => new Span(Math.Max(0, a.FromS - marginS), Math.Min(LengthS, a.ToS + marginS))), 0);

    /// <summary>Whether something that begins at a moment of this stretch is counted here.</summary>
    public bool Owns(double atS) => StartS + atS >= OwnFromS && StartS + atS < OwnToS;
}

/// <summary>A stretch of time, in seconds.</summary>
internal readonly record struct Span(double FromS, double ToS)
{
    /// <summary>How long.</summary>
    public double LengthS => ToS - FromS;

    /// <summary>How much both have in common, in seconds.</summary>
    public double Overlap(Span other) => Math.Max(0, Math.Min(ToS, other.ToS) - Math.Max(FromS, other.FromS));

    /// <summary>All of them in order, those joined whose gap is at most a length.</summary>
    public static List<Span> Join(IEnumerable<Span> spans, double gapS)
    {
        List<Span> joined = [];
        foreach (Span span in spans.OrderBy(static s => s.FromS))
        {
            if (joined.Count > 0 && span.FromS <= joined[^1].ToS + gapS)
            {
                joined[^1] = joined[^1] with { ToS = Math.Max(joined[^1].ToS, span.ToS) };
            }
            else
            {
                joined.Add(span);
            }
        }

        return joined;
    }
}
