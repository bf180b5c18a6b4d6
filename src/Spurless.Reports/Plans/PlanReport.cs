using Spurless.Drawing.Plans;
using Spurless.Drawing.Words;
using Spurless.Reports.Html;
using Spurless.Sites.Plans;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Plans;

/// <summary>The report of a plan: one self-contained page with the strip of the band and its channels.</summary>
public static class PlanReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">The channels.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(PlanAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<PlanPage>(new Dictionary<string, object?>
        {
            [nameof(PlanPage.Answer)] = answer,
            [nameof(PlanPage.Context)] = context,
        });

    /// <summary>What the strip shows.</summary>
    /// <param name="answer">The channels.</param>
    /// <param name="chosenHz">The channel that is chosen, in hertz; null for the best.</param>
    public static PlanStripModel Strip(PlanAnswer answer, long? chosenHz = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        IEnumerable<PlanStripChannel> offered = answer.Offered.Select(
            static c => new PlanStripChannel(c.FrequencyHz, c.SumOverNoiseDb, VerdictOf(c), IsTaken: false));
        IEnumerable<PlanStripChannel> taken = answer.NotOffered.Select(
            static t => new PlanStripChannel(t.FrequencyHz, null, Verdict.Clear, IsTaken: true));
        return new PlanStripModel
        {
            Title = $"What lands on each channel from {PlanWords.Megahertz(answer.Question.FromHz)} to "
                + $"{PlanWords.Megahertz(answer.Question.ToHz)} MHz",
            Description = PlanWords.Answer(answer, Typography.Plain),
            RasterHz = answer.Question.RasterHz,
            Channels = [.. offered.Concat(taken).OrderBy(static c => c.FrequencyHz)],
            Marks = [.. answer.Marks.Select(static m => new PlanStripMark(m.Name, m.FrequencyHz))],
            BestHz = answer.Offered.Count > 0 ? answer.Offered[0].FrequencyHz : null,
            ChosenHz = chosenHz,
            PresentHz = answer.PresentHz,
            MarginalFromDb = answer.Question.Options.MarginalFromDb,
        };
    }

    private static Verdict VerdictOf(PlanChannel channel) =>
        channel.Harmful > 0 ? Verdict.Harmful
            : channel.Marginal > 0 ? Verdict.Marginal
            : channel.Unknown > 0 ? Verdict.Unknown : Verdict.Clear;
}
