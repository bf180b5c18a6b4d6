using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Recordings;

/// <summary>What an emitter's designator lets one expect on a product that it takes part in.</summary>
public enum Carried
{
    /// <summary>Speech, with squelch tones and the like.</summary>
    Voice,

    /// <summary>Data that key the carrier itself (second symbol 1 or 7).</summary>
    Data,

    /// <summary>Data on a subcarrier in the audio (second symbol 2).</summary>
    ToneData,

    /// <summary>Morse to be read by ear, as of a beacon (information A).</summary>
    Morse,

    /// <summary>Nothing: a carrier.</summary>
    Nothing,

    /// <summary>Wide or scrambled: it sounds like noise on a narrow channel.</summary>
    Wide,
}

/// <summary>What a recorded band measures of a mixture; null where it does not.</summary>
/// <param name="DeviationHz">Peak deviation that was measured.</param>
/// <param name="ExpectedDeviationHz">Peak deviation that the mixture's coefficients make of the emitters' bandwidths.</param>
/// <param name="OffsetHz">Measured centre less the mixture's frequency.</param>
/// <param name="OffsetSigmaHz">What the clocks of emitters and recorder leave open, one sigma.</param>
public sealed record MeasuredFit(double? DeviationHz, double? ExpectedDeviationHz, double? OffsetHz, double? OffsetSigmaHz);

/// <summary>A mixture of the site held against what was heard.</summary>
/// <param name="Product">The mixture.</param>
/// <param name="Carries">What its emitters carry, in the order of its terms.</param>
/// <param name="Explained">Kinds heard that one of its emitters can carry.</param>
/// <param name="Unexplained">Kinds heard that none of them can.</param>
/// <param name="Missing">Emitters whose kind was not heard (they may have been silent).</param>
/// <param name="Measured">Deviation and offset, from a band.</param>
/// <param name="Share">The probability among the mixtures of the receiver, with equal chances before.</param>
public sealed record MixtureFit(
    ProductFinding Product, IReadOnlyList<Carried> Carries, IReadOnlyList<SignalKind> Explained, IReadOnlyList<SignalKind> Unexplained,
    IReadOnlyList<string> Missing, MeasuredFit Measured, double Share);

/// <summary>
/// Holds what was heard on a receiver's channel against each mixture that can land there. Kinds are weighed by what an emitter of that
/// class shows on made signals (docs/method/listen.md): a kind that no emitter of the mixture carries counts 0.03, an emitter whose kind
/// was not heard 0.4 (it may have been silent).
/// </summary>
public static class SiteFits
{
    private const double Stranger = 0.03;
    private const double Silent = 0.4;
    private const double OverDeviation = 1.35;

    // Speech seldom reaches its peak, so less than expected says less than more does.
    private const double UnderDeviation = 2.5;

    // A base station keeps 2 parts in a million, a receiver for recording 10 (common practice).
    private const double EmitterClock = 2e-6;
    private const double RecorderClock = 10e-6;
    private const double LeastFactor = 0.05;

    // Something that is no mixture carries what it likes; two classes of kinds at once seldom (our choice).
    private const double OtherAClass = 0.3;

    private static readonly HashSet<SignalKind> _data =
        [SignalKind.Pocsag, SignalKind.Fsk9600, SignalKind.TwoLevelFsk, SignalKind.FourLevelFsk];

    private static readonly HashSet<SignalKind> _toneData = [SignalKind.Afsk1200, SignalKind.Dtmf, SignalKind.TwoTone, SignalKind.Tone];

    private static readonly HashSet<SignalKind> _voice =
        [SignalKind.Voice, SignalKind.Ctcss, SignalKind.Dcs, SignalKind.Dtmf, SignalKind.TwoTone, SignalKind.Morse, SignalKind.Tone];

    /// <summary>Weighs the mixtures of a receiver.</summary>
    /// <param name="heard">What was heard; of a band only what is on the receiver's channel.</param>
    /// <param name="study">The site's study.</param>
    /// <param name="site">The site.</param>
    /// <param name="receiver">The receiver's name; null for the first.</param>
    /// <returns>Most likely first; empty where nothing was heard or nothing can land.</returns>
    public static IReadOnlyList<MixtureFit> Weigh(Heard heard, StudyResult study, SiteDocument site, string? receiver)
    {
        ArgumentNullException.ThrowIfNull(heard);
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(site);
        ReceiverFindings place = receiver is null ? study.Receivers[0] : study.Receivers.First(r => r.Name == receiver);
        List<Transmission> transmissions = OnChannel(heard, place.FrequencyHz, place.ChannelHz);
        HashSet<SignalKind> kinds = Kinds(transmissions);
        if (transmissions.Count == 0)
        {
            return [];
        }

        Transmission? widest = transmissions.Where(static t => t.DeviationHz is not null).MaxBy(static t => t.DeviationHz);
        Dictionary<string, EmitterEntry> emitters = site.Emitters.ToDictionary(static e => e.Name, StringComparer.Ordinal);
        List<(MixtureFit Fit, double Weight)> weighed = [];

        // The same mixture made at several places sounds the same.
        foreach (ProductFinding product in place.Products.Where(
            static p => p.Verdict is Verdict.Harmful or Verdict.Marginal or Verdict.Unknown).DistinctBy(static p => p.Identity))
        {
            weighed.Add(Held(product, emitters, kinds, Measure(product, emitters, widest?.DeviationHz, widest?.CentreHz)));
        }

        double sum = weighed.Sum(static w => w.Weight);
        return [.. weighed.OrderByDescending(static w => w.Weight).Select(w => w.Fit with { Share = sum > 0 ? w.Weight / sum : 0 })];
    }

    /// <summary>Natural logarithm of how likely a mixture makes kinds that were heard on the channel: the weights of a fit.</summary>
    /// <param name="product">The mixture.</param>
    /// <param name="site">The site.</param>
    /// <param name="kinds">What was heard together.</param>
    /// <param name="deviationHz">Peak deviation, where it was measured.</param>
    public static double LogLikelihood(
        ProductFinding product, SiteDocument site, IReadOnlyCollection<SignalKind> kinds, double? deviationHz)
    {
        ArgumentNullException.ThrowIfNull(product);
        ArgumentNullException.ThrowIfNull(site);
        Dictionary<string, EmitterEntry> emitters = site.Emitters.ToDictionary(static e => e.Name, StringComparer.Ordinal);
        return Math.Log(Held(product, emitters, [.. kinds.Where(Tells)], Measure(product, emitters, deviationHz, null)).Weight);
    }

    /// <summary>The same for something that is no mixture: one transmitter seldom carries several classes of kinds at once.</summary>
    /// <param name="kinds">What was heard together.</param>
    public static double LogLikelihoodOfOther(IReadOnlyCollection<SignalKind> kinds)
    {
        // An identification in Morse goes with any class.
        SignalKind[] telling = [.. kinds.Where(static k => Tells(k) && k != SignalKind.Morse)];
        int classes = new[] { _data, _toneData, _voice }.Count(c => telling.Any(k => c.Contains(k) && OnlyIn(c, k)));
        return Math.Max(1, classes) * Math.Log(OtherAClass);

        static bool OnlyIn(HashSet<SignalKind> of, SignalKind kind) => !(of == _toneData && _voice.Contains(kind));
    }

    /// <summary>What was on a channel: of audio all of it.</summary>
    internal static List<Transmission> OnChannel(Heard heard, double frequencyHz, double channelHz) =>
        [.. heard.Transmissions.Where(t => t.CentreHz is not { } hz || Math.Abs(hz - frequencyHz) <= channelHz / 2)];

    /// <summary>The kinds that were heard with some sureness and tell mixtures apart.</summary>
    internal static HashSet<SignalKind> Kinds(List<Transmission> on) =>
        [.. on.SelectMany(static t => t.Kinds).Where(static k => k.Confidence > 0.6).Select(static k => k.Kind).Where(Tells)];

    private static bool Tells(SignalKind kind) =>
        kind is not (SignalKind.Carrier or SignalKind.Unknown or SignalKind.Hum or SignalKind.Comb or SignalKind.Noise);

    private static (MixtureFit Fit, double Weight) Held(
        ProductFinding product, Dictionary<string, EmitterEntry> emitters, HashSet<SignalKind> kinds, MeasuredFit measured)
    {
        Carried[] carries = [.. product.Terms.Select(t => emitters.TryGetValue(t.Name, out EmitterEntry? e) ? Of(e) : Carried.Voice)];
        // A station of any class may identify itself in Morse: that is no stranger, and says nothing of who was silent.
        SignalKind[] explained = [.. kinds.Where(k => carries.Any(
            c => Carries(c, k) || k == SignalKind.Morse && c is (Carried.Data or Carried.ToneData)))];
        SignalKind[] strangers = [.. kinds.Except(explained)];
        string[] missing = [.. product.Terms.Where((_, i) => carries[i] is not (Carried.Nothing or Carried.Wide)
            && !kinds.Any(k => Carries(carries[i], k))).Select(static t => t.Name)];
        double weight = Math.Pow(Stranger, Math.Min(3, strangers.Length)) * Math.Pow(Silent, missing.Length)
            * Wide(carries, kinds) * Likely(measured);
        return (new MixtureFit(product, carries, explained, strangers, missing, measured, 0), weight);
    }

    /// <summary>What an emitter carries, by its designator; without one, speech.</summary>
    public static Carried Of(EmitterEntry emitter)
    {
        ArgumentNullException.ThrowIfNull(emitter);
        if (emitter.NoiseLike || emitter.BandwidthHz > 30_000)
        {
            return Carried.Wide;
        }

        return emitter.Emission switch
        {
            { IsUnmodulated: true } => Carried.Nothing,
            { Information: 'A' } => Carried.Morse,
            { SignalNature: '2' } => Carried.ToneData,
            { Information: 'D' or 'W' } or { SignalNature: '1' or '7' } => Carried.Data,
            null when emitter.BandwidthHz == 0 => Carried.Nothing,
            _ => Carried.Voice,
        };
    }

    private static bool Carries(Carried carried, SignalKind kind) => carried switch
    {
        Carried.Data => _data.Contains(kind),
        Carried.ToneData => _toneData.Contains(kind),
        Carried.Voice => _voice.Contains(kind),
        Carried.Morse => kind is SignalKind.Morse or SignalKind.Tone,
        _ => false,
    };

    /// <summary>With a wide emitter in it nothing of the others is left to recognise.</summary>
    private static double Wide(Carried[] carries, HashSet<SignalKind> kinds) => carries.Contains(Carried.Wide) && kinds.Count > 0 ? 0.05
        : 1;

    /// <summary>
    /// A coefficient of k makes k times the deviation: expected is the sum over the emitters of half of the bandwidth less 3 kHz (Carson's
    /// rule), where all of them are modulated in angle.
    /// </summary>
    private static MeasuredFit Measure(
        ProductFinding product, Dictionary<string, EmitterEntry> emitters, double? deviationHz, double? centreHz)
    {
        double expected = 0;
        bool angle = true;
        double variance = Math.Pow(RecorderClock * product.FrequencyHz, 2);
        foreach (Term term in product.Terms)
        {
            if (emitters.TryGetValue(term.Name, out EmitterEntry? e))
            {
                angle &= e.Emission is null or { Modulation: 'F' or 'G' };
                expected += Math.Abs(term.Coefficient) * Math.Max(0, e.BandwidthHz / 2.0 - 3_000);
                variance += Math.Pow(EmitterClock * term.Coefficient * e.Frequency.Hertz, 2);
            }
        }

        double? made = deviationHz is not null && angle && expected > 0 ? expected : null;
        return new MeasuredFit(
            deviationHz, made, centreHz - product.FrequencyHz, centreHz is null ? null : Math.Sqrt(variance));
    }

    private static double Likely(MeasuredFit fit)
    {
        double likely = 1;
        if (fit is { DeviationHz: { } deviation, ExpectedDeviationHz: { } expected })
        {
            double ratio = deviation / Math.Max(500, expected);
            double off = Math.Log(ratio) / Math.Log(ratio > 1 ? OverDeviation : UnderDeviation);
            likely *= Math.Max(LeastFactor, Math.Exp(-0.5 * off * off));
        }

        if (fit is { OffsetHz: { } offset, OffsetSigmaHz: { } sigma })
        {
            likely *= Math.Max(LeastFactor, Math.Exp(-0.5 * offset * offset / (sigma * sigma)));
        }

        return likely;
    }
}
