using Spurless.Sites.Studies;

namespace Spurless.Sites.Measuring;

/// <summary>
/// Says which levels to measure first: those that bring most mixtures a level. A mixture that waits for two levels counts half for each of
/// them, one that waits for three a third; orders up to three are served before all others. It takes no time worth watching.
/// </summary>
public static class MeasureFirstService
{
    /// <summary>Answers a question.</summary>
    public static MeasureFirstAnswer Ask(MeasureFirstQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        ReceiverFindings receiver = question.Receiver;
        bool[] unknown = [.. receiver.Carriers.Select(static c => c.LevelAtAntennaDbm is null && !c.HeldOff)];
        List<(int[] Waits, int Order, int Signals)> open = [.. Of(receiver)
            .Select(p => (Waits: p.Emitters.Where(e => unknown[e]).Distinct().ToArray(), p.Order, Signals: p.Emitters.Length))
            .Where(static p => p.Waits.Length > 0)];
        CandidateCount[] counts = [.. open.GroupBy(static p => (p.Order, p.Signals)).OrderBy(static g => g.Key)
            .Select(static g => new CandidateCount(g.Key.Order, g.Key.Signals, g.Count()))];
        int[] takesPart = new int[unknown.Length];
        foreach (int e in open.SelectMany(static p => p.Waits))
        {
            takesPart[e]++;
        }

        return new MeasureFirstAnswer(question, open.Count, counts, Steps(receiver, open, takesPart, question.Steps));
    }

    private static List<MeasureStep> Steps(
        ReceiverFindings receiver, List<(int[] Waits, int Order, int Signals)> open, int[] takesPart, int most)
    {
        List<MeasureStep> steps = [];
        bool[] measured = new bool[takesPart.Length];
        int settled = 0;
        while (steps.Count < most && settled < open.Count)
        {
            (double Low, double All)[] worth = new (double, double)[takesPart.Length];
            foreach ((int[] waits, int order, _) in open)
            {
                int left = waits.Count(e => !measured[e]);
                foreach (int e in waits.Where(e => !measured[e]))
                {
                    worth[e].All += 1.0 / left;
                    worth[e].Low += order <= MeasureFirstQuestion.LowOrder ? 1.0 / left : 0;
                }
            }

            int best = Enumerable.Range(0, worth.Length).Where(e => !measured[e] && worth[e].All > 0)
                .OrderByDescending(e => worth[e].Low).ThenByDescending(e => worth[e].All).ThenBy(static e => e).First();
            measured[best] = true;
            settled = open.Count(p => p.Waits.All(e => measured[e]));
            CarrierFinding carrier = receiver.Carriers[best];
            steps.Add(new MeasureStep(best, carrier.Emitter, carrier.FrequencyHz, takesPart[best], settled));
        }

        return steps;
    }

    // Of a long list no finding is made for it.
    private static IEnumerable<(int[] Emitters, int Order)> Of(ReceiverFindings receiver) => receiver.Products is ProductListing listing
        ? listing.WithoutLevel.Select(static r => (Enumerable.Range(0, r.Signals).Select(i => r.Emitter(i)).ToArray(), (int)r.Order))
        : receiver.Products.Where(static p => p.InChannelLevelDbm is null)
            .Select(static p => (p.Terms.Select(static t => t.Emitter).ToArray(), p.Order));
}
