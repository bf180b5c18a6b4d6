using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Plans;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Plans;

/// <summary>Asks on which channels a receiver of an open folder's site would be quiet, and writes one into its file.</summary>
public static class FolderPlans
{
    /// <summary>So many channels on each side of the present one are weighed where no band is typed.</summary>
    private const int EachSide = 40;

    /// <summary>The question: the same as the command's on the same files.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="file">The site file's name within it.</param>
    /// <param name="typed">What is typed.</param>
    /// <returns>
    /// The question; without one, what is wrong with what is typed. Null where the file is not there or cannot be studied.
    /// </returns>
    public static AskedPlan? Question(OpenFolder folder, string file, TypedPlan typed)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(typed);
        if (folder.Session.Read(file) is not { } text || folder.SiteOf(text).Site is not { } site)
        {
            return null;
        }

        ReceiverEntry receiver = site.Document.Receivers.FirstOrDefault(r => r.Name == typed.Receiver) ?? site.Document.Receivers[0];
        Dictionary<string, string> faults = new(StringComparer.Ordinal);
        string problem = "";
        Frequency raster = receiver.Channel;
        if (Given(typed.Raster) is { } r && !Frequency.TryParse(r, out raster, out problem))
        {
            faults["raster"] = problem;
        }

        (long from, long to) = Around(receiver, raster.Hertz > 0 ? raster.Hertz : receiver.Channel.Hertz);
        if (Given(typed.Band) is { } band)
        {
            bool read = FrequencyRange.TryParse(band, out FrequencyRange range, out problem);
            (from, to) = (range.From.Hertz, range.To.Hertz);
            Wrong(faults, "band", read, problem);
        }

        Frequency shift = default;
        int count = 0;
        Wrong(faults, "shift", Given(typed.Shift) is not { } s || Frequency.TryParse(s, out shift, out problem), problem);
        if (Given(typed.Count) is { } c && !int.TryParse(c, NumberStyles.None, CultureInfo.InvariantCulture, out count))
        {
            faults["count"] = $"'{c}' is no number of channels; write 1 to {PlanQuestion.MostTogether}";
        }

        DiagnosticBag findings = new();
        BandPlan? plan = Given(typed.BandPlan) is { } name && folder.Session.Read(name) is { } csv
            ? BandPlanReader.Read(System.Text.Encoding.UTF8.GetBytes(csv.Text), name, findings)
            : null;
        return new AskedPlan(text.Text, $"{Megahertz(from)} MHz-{Megahertz(to)} MHz", raster.ToString(), faults, findings.InOrder())
        {
            Question = faults.Count > 0 || findings.HasErrors ? null : new PlanQuestion
            {
                Site = site,
                FromHz = from,
                ToHz = to,
                RasterHz = raster.Hertz,
                ShiftHz = Given(typed.Shift) is null ? null : shift.Hertz,
                Count = Given(typed.Count) is null ? null : count,
                Receiver = receiver.Name,
                BandPlan = plan,
            },
        };
    }

    /// <summary>
    /// The field that a refusal is about: <c>band</c>, <c>raster</c>, <c>shift</c> or <c>count</c>; null for none of them.
    /// </summary>
    public static string? FieldOf(Refusal? refusal) => refusal?.Subject switch
    {
        nameof(PlanQuestion.FromHz) => "band",
        nameof(PlanQuestion.RasterHz) => "raster",
        nameof(PlanQuestion.ShiftHz) => "shift",
        nameof(PlanQuestion.Count) => "count",
        _ => null,
    };

    /// <summary>
    /// Writes a channel into the site file: the receiver's, and that of each transmitter that follows it; Undo takes it back.
    /// </summary>
    /// <param name="folder">The folder.</param>
    /// <param name="file">The site file's name within it.</param>
    /// <param name="asked">What was asked.</param>
    /// <param name="frequencyHz">The channel in hertz.</param>
    /// <returns>Why it was not written: 'what; what to do instead'; null where it was.</returns>
    public static string? Keep(OpenFolder folder, string file, AskedPlan asked, long frequencyHz)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(asked);
        PlanQuestion question = asked.Question ?? throw new ArgumentException("Nothing was asked.", nameof(asked));
        SiteDocument site = question.Site.Document;
        int receiver = site.Receivers.Index().First(r => r.Item.Name == question.Receiver).Index;
        return folder.Edit(file, $"moved to {Megahertz(frequencyHz)} MHz", now => now != asked.Text
            ? (null, "the site file has changed since this list was made; look at the new one")
            : MovedText.Of(now, site, receiver, frequencyHz, question.ShiftHz) is { } moved
                ? (moved, null)
                : (null, "the frequencies of this file cannot be changed here; write them on the page Site")).Problem;
    }

    // What lies at both sides of the receiver, in its own steps, as far as frequencies go.
    private static (long From, long To) Around(ReceiverEntry receiver, long rasterHz)
    {
        long now = receiver.Frequency.Hertz;
        long down = Math.Min(EachSide, (now - 1) / rasterHz);
        long up = Math.Min(EachSide, (Frequency.GreatestHertz - now) / rasterHz);
        return (now - (down * rasterHz), now + (up * rasterHz));
    }

    private static void Wrong(Dictionary<string, string> faults, string field, bool right, string problem)
    {
        if (!right)
        {
            faults[field] = problem;
        }
    }

    private static string? Given(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static string Megahertz(long hertz) => MegahertzText.Of(hertz, 0, 6);
}
