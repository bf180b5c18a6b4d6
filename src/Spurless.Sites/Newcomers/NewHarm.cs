using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Newcomers;

/// <summary>Something harmful that is new on a receiver, and what would end it.</summary>
/// <param name="Kind">Of what it needs more.</param>
/// <param name="Maker">The transmitter at which that is; null for what acts on carriers at the receiver.</param>
/// <param name="FallsDb">How far it must fall, in dB.</param>
/// <param name="Times">By how many dB it falls for one dB more at the maker.</param>
internal sealed record NewHarm(NewcomerNeedKind Kind, string? Maker, double FallsDb, int Times)
{
    /// <summary>
    /// The other side's emitters that take part, with by how many dB it falls for one dB less of each; empty for what a transmitter makes.
    /// </summary>
    public IReadOnlyDictionary<string, int> Others { get; init; } = new Dictionary<string, int>();

    /// <summary>Whether it is a sum over carriers, which falls by one dB only where all of them do.</summary>
    public bool IsSum { get; init; }

    /// <summary>What it falls by for one dB more everywhere.</summary>
    public int AllTimes => Maker is not null || IsSum ? Times : Others.Values.Sum();

    /// <summary>Everything new that is harmful on a receiver.</summary>
    /// <param name="receiver">What is new there.</param>
    /// <param name="otherSide">The other side's emitters.</param>
    /// <param name="harmfulFromDb">From where over the noise something is harmful.</param>
    public static IReadOnlyList<NewHarm> Of(NewcomerReceiver receiver, IReadOnlyList<string> otherSide, double harmfulFromDb)
    {
        HashSet<string> others = new(otherSide, StringComparer.Ordinal);
        return
        [
            .. receiver.Findings.Products.TakeWhile(static p => p.Verdict == Verdict.Harmful)
                .Select(p => OfProduct(p, others, p.OverNoiseDb!.Value - harmfulFromDb)),
            .. receiver.Causes.Where(static c => c.Cause.Verdict == Verdict.Harmful)
                .Select(c => OfCause(c.Cause, others, c.Cause.Finding.OverNoiseDb!.Value - harmfulFromDb)),
        ];
    }

    private static NewHarm OfProduct(ProductFinding product, HashSet<string> others, double falls)
    {
        if (product is { Mechanism: Mechanism.Transmitter, Sum: { } sum })
        {
            return new(NewcomerNeedKind.Isolator, product.MadeIn, falls, sum.Incoming.Sum(static i => i.Times));
        }

        return new(NewcomerNeedKind.CarrierAttenuation, null, falls, 1) { Others = Weights(product, others) };
    }

    private static NewHarm OfCause(OtherCause cause, HashSet<string> others, double falls)
    {
        NewHarm carriers = new(NewcomerNeedKind.CarrierAttenuation, null, falls, 1);
        int times = Math.Max(1, cause.Finding.Response?.P ?? 1);
        return cause.Finding.Cause switch
        {
            CauseKind.Direct or CauseKind.AdjacentChannel =>
                carriers with { Kind = NewcomerNeedKind.PathLoss, Others = Weights([(cause.Emitter!, 1)], others) },
            CauseKind.TransmitterNoise or CauseKind.Harmonic =>
                carriers with { Kind = NewcomerNeedKind.OutputFilter, Maker = cause.Emitter },
            _ when JointStudy.IsSum(cause) =>
                carriers with { IsSum = true, Others = others.ToDictionary(static e => e, static _ => 1, StringComparer.Ordinal) },
            // The carrier whose envelope moves counts with its power, the one beside the channel with its amplitude.
            CauseKind.CrossModulation =>
                carriers with { Others = Weights([(cause.Emitter!, 2), (cause.Finding.Modulated!, 1)], others) },
            _ when cause.Product is { } product => carriers with
            {
                Others = Weights(product, others).ToDictionary(static w => w.Key, w => w.Value * times, StringComparer.Ordinal),
            },
            _ => carriers with { Others = Weights([(cause.Emitter!, times)], others) },
        };
    }

    private static Dictionary<string, int> Weights(ProductFinding product, HashSet<string> others) =>
        Weights(product.Terms.Select(static t => (t.Name, Math.Abs(t.Coefficient))), others);

    private static Dictionary<string, int> Weights(IEnumerable<(string Emitter, int Times)> all, HashSet<string> others) =>
        all.Where(w => others.Contains(w.Emitter)).ToDictionary(static w => w.Emitter, static w => w.Times, StringComparer.Ordinal);
}
