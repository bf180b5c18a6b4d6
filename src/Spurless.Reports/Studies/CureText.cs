using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>
/// All that spoils a receiver, grouped by whose work the cure is: at the receiver, at a transmitter, by the owner of the structure, another
/// channel.
/// </summary>
internal static class CureText
{
    private static readonly Typography Signs = Typography.Plain;

    /// <summary>The groups in order, each with its lines, worst first; a group without a line is left out.</summary>
    /// <param name="receiver">The findings.</param>
    public static IReadOnlyList<(string Heading, IReadOnlyList<(Verdict Verdict, string Does,
        string Says)> Lines)> Groups(ReceiverFindings receiver)
    {
        ProductFinding[] products = [.. receiver.Products.Where(static p => !p.OnCarrierOfItsOwn
            && p.Verdict is Verdict.Harmful or Verdict.Marginal)];
        List<(string, IReadOnlyList<(Verdict, string, string)>)> groups = [];
        Add(
            "Cured at your receiver",
            products.Where(static p => p.Mechanism == Mechanism.Receiver),
            products.Any(p => p.Mechanism == Mechanism.Receiver && p.MadeIn != receiver.Name)
                ? "made in your receiver or its amplifiers"
                : "made in your receiver",
            CausesAt(CurePlace.Receiver));
        IEnumerable<string> transmitters = products.Where(static p => p.Mechanism == Mechanism.Transmitter).Select(static p => p.MadeIn)
            .Concat(CausesAt(CurePlace.Transmitter).Select(static c => c.Emitter ?? "")).Distinct(StringComparer.Ordinal);
        foreach (string name in transmitters.ToArray())
        {
            Add(
                $"Cured at the transmitter of {name}",
                products.Where(p => p.Mechanism == Mechanism.Transmitter && p.MadeIn == name),
                $"made in the transmitter of {name}; no filter at your receiver removes it",
                CausesAt(CurePlace.Transmitter).Where(c => c.Emitter == name));
        }

        Add("Cured by the owner of the structure", [], "", CausesAt(CurePlace.StructureOwner));
        Add("Cured by another channel", [], "", CausesAt(CurePlace.Channel));
        return groups;

        IEnumerable<OtherCause> CausesAt(CurePlace place) => receiver.OtherCauses.Where(c => c.Cure == place && !c.OnlyUsual);

        void Add(string heading, IEnumerable<ProductFinding> made, string where, IEnumerable<OtherCause> causes)
        {
            List<(Verdict Verdict, string Does, string Says)> lines = [];
            if (made.MaxBy(static p => p.OverNoiseDb) is { } worst)
            {
                int more = made.Count() - 1;
                lines.Add((
                    worst.Verdict,
                    ImpactWords.Of(worst),
                    $"{StudyWords.Mixture(worst, Signs)}, {Figures.SignedDb(worst.OverNoiseDb ?? 0, Signs)} dB over noise, {where}"
                        + (more == 0 ? "." : $"; and {Figures.Count(more, Signs)} more.")));
            }

            lines.AddRange(causes.Select(static c => (c.Verdict, ImpactWords.Of(c), CauseWords.Says(c))));
            if (lines.Count > 0)
            {
                groups.Add((heading, [.. lines.OrderBy(static l => l.Verdict)]));
            }
        }
    }

    /// <summary>What happens when the transmitter that follows this receiver is off; null where nothing known depends on it.</summary>
    /// <param name="receiver">The findings.</param>
    public static string? OwnTransmitterOff(ReceiverFindings receiver)
    {
        ProductFinding[] there = [.. receiver.Products.Where(static p => p.Verdict is Verdict.Harmful or Verdict.Marginal)];
        int with = there.Count(static p => p.KeepsItselfUp);
        if (with == 0)
        {
            return null;
        }

        string own = string.Join(" and ", receiver.Carriers.Where(c => c.Follows == receiver.Name).Select(static c => c.Emitter));
        ProductFinding? left = there.FirstOrDefault(static p => !p.KeepsItselfUp);
        return $"While {own} is off, {Figures.Count(with, Signs)} of the "
            + $"{Figures.Count(there.Length, Signs)} harmful and marginal mixtures "
            + (with == 1 ? "is" : "are") + " gone; once it is on, "
                + (with == 1 ? "that one keeps itself up. " : "those keep themselves up. ")
            + (left is null
                ? "None is left without it to start it."
                : $"{(there.Length - with == 1 ? "One stays" : $"{Figures.Count(there.Length - with, Signs)} stay")}, "
                    + $"the worst {Figures.SignedDb(left.OverNoiseDb ?? 0, Signs)} dB over noise.");
    }
}
