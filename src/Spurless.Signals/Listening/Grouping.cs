using Spurless.Signals.Recognition;

namespace Spurless.Signals.Listening;

/// <summary>Makes transmissions of what the recognisers found piece by piece.</summary>
internal static class Grouping
{
    /// <summary>Pauses under this do not end a transmission, in seconds.</summary>
    public const double PauseS = 1.5;

    private const double FlagsHz = 1_200 / 8.0;

    private static readonly HashSet<SignalKind> _general = [SignalKind.Tone, SignalKind.TwoLevelFsk, SignalKind.Noise, SignalKind.Unknown];

    /// <summary>Kinds whose own begin and end are measured finer than those of the activity.</summary>
    private static readonly HashSet<SignalKind> _exact =
    [
        SignalKind.Pocsag, SignalKind.Afsk1200, SignalKind.Fsk9600, SignalKind.Ctcss, SignalKind.Dtmf, SignalKind.TwoTone,
            SignalKind.Morse, SignalKind.Tone,
    ];

    /// <summary>The transmissions of an audio recording.</summary>
    public static List<Transmission> OfAudio(IEnumerable<Finding> findings, IEnumerable<Span> onAir, double durationS)
    {
        List<Finding> all = [.. findings];
        List<Transmission> list = [];
        foreach (Span span in Span.Join(onAir, PauseS))
        {
            List<Finding> inside = all.FindAll(f => Math.Min(f.EndS, span.ToS) > Math.Max(f.StartS, span.FromS));
            IReadOnlyList<Finding> kinds = Kinds(inside);
            if (kinds.Count == 0)
            {
                continue;
            }

            Span edges = Edges(span, inside);
            list.Add(new Transmission { StartS = Math.Max(0, edges.FromS), EndS = Math.Min(durationS, edges.ToS), Kinds = kinds });
        }

        return list;
    }

    /// <summary>Each kind once, with the general ones left out where a particular one explains the same signal; the surest first.</summary>
    public static IReadOnlyList<Finding> Kinds(List<Finding> findings)
    {
        List<Finding> merged = [];
        foreach (IGrouping<(SignalKind, string?),
            Finding> group in findings.GroupBy(static f => (f.Kind, f.Kind is SignalKind.Ctcss or SignalKind.Dcs ? f.Code : null)))
        {
            merged.Add(Merge([.. group.OrderBy(static f => f.StartS)]));
        }

        // Of two squelch tones or codes the one that is there longer; another only if it stands for a second of its own.
        merged.RemoveAll(m => m.Kind is SignalKind.Ctcss or SignalKind.Dcs
            && merged.Exists(o => o != m && o.Kind == m.Kind && o.LengthS > m.LengthS
                && (m.LengthS < 1 || Common(o, m) > 0.3 * m.LengthS)));
        merged.RemoveAll(m => _general.Contains(m.Kind)
            && findings.Exists(o => !_general.Contains(o.Kind) && o.Kind is not (SignalKind.Carrier or SignalKind.Ctcss
            or SignalKind.Dcs or SignalKind.Hum or SignalKind.Voice) && Common(o, m) > 0.5 * m.LengthS));
        // Flags over and over, eight bits each, are a comb of their own; it is the packet's.
        merged.RemoveAll(m => m is { Kind: SignalKind.Comb, ToneHz: { } apart } && Math.Abs(apart - FlagsHz) < 0.01 * FlagsHz
            && merged.Exists(o => o.Kind == SignalKind.Afsk1200 && Common(o, m) > 0.5 * m.LengthS));
        merged.RemoveAll(m => m.Kind is SignalKind.Unknown
            && merged.Exists(o => o != m && o.Kind != SignalKind.Carrier && Common(o, m) > 0.5 * m.LengthS));
        return [.. merged.Select(m => m with { StartS = Math.Max(m.StartS, 0) }).OrderByDescending(static m => m.Confidence)
            .ThenBy(static m => m.StartS).ThenBy(static m => m.Kind)];
    }

    private static double Common(Finding a, Finding b) => Math.Min(a.EndS, b.EndS) - Math.Max(a.StartS, b.StartS);

    private static Finding Merge(List<Finding> parts)
    {
        if (parts.Count == 1)
        {
            return parts[0];
        }

        // The figures of the longest part stand for all; counts add up.
        Finding main = parts.MaxBy(static p => (p.UnitsGood ?? 0) + 0.001 * p.LengthS)!;
        string? code = main.Kind == SignalKind.Morse ? string.Join(' ', Apart(parts).Select(static p => p.Code)) : main.Code;
        return main with
        {
            StartS = parts.Min(static p => p.StartS),
            EndS = parts.Max(static p => p.EndS),
            Confidence = parts.Max(static p => p.Confidence),
            Code = code,
            UnitsChecked = Sum(parts, static p => p.UnitsChecked),
            UnitsGood = Sum(parts, static p => p.UnitsGood),
            Evidence = main.Evidence with
            {
                SyncWords = Sum(parts, static p => p.Evidence.SyncWords),
                Corrected = Sum(parts, static p => p.Evidence.Corrected),
                Flags = Sum(parts, static p => p.Evidence.Flags),
            },
        };
    }

    /// <summary>
    /// Parts that do not lie in each other: neighbouring stretches of a recording both see what lies across their border.
    /// </summary>
    private static IEnumerable<Finding> Apart(List<Finding> parts)
    {
        double end = double.NegativeInfinity;
        foreach (Finding part in parts.OrderBy(static p => p.StartS).ThenByDescending(static p => p.EndS))
        {
            if (part.EndS - Math.Max(end, part.StartS) > 0.5 * part.LengthS)
            {
                end = Math.Max(end, part.EndS);
                yield return part;
            }
        }
    }

    private static int? Sum(List<Finding> parts, Func<Finding, int?> of) => parts.Exists(p => of(p) is not null)
        ? parts.Sum(p => of(p) ?? 0) : null;

    private static Span Edges(Span span, List<Finding> inside)
    {
        List<Finding> exact = inside.FindAll(static f => _exact.Contains(f.Kind));
        double[] begins = [.. exact.Select(static f => f.StartS).Where(s => Math.Abs(s - span.FromS) < 0.2)];
        double[] ends = [.. exact.Select(static f => f.EndS).Where(e => Math.Abs(e - span.ToS) < 0.2)];
        return new(begins.Length > 0 ? begins.Min() : span.FromS, ends.Length > 0 ? ends.Max() : span.ToS);
    }
}
