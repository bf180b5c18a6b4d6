using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;
using Spurless.Workbench.Desk;

namespace Spurless.Pages.Study;

/// <summary>Puts together what the study page shows: what lands now beside what landed before, and what the two are called.</summary>
public static class StudyShown
{
    /// <summary>Mixtures that are clear and listed at most: nobody reads more, and each costs time at every step of a slider.</summary>
    public const int MostClear = 200;

    /// <summary>Gives a receiver's mixtures their numbers, worst first as it was before.</summary>
    /// <param name="before">What landed before.</param>
    /// <param name="numbers">Takes them.</param>
    public static void Number(ReceiverFindings before, Dictionary<ProductRow, int> numbers)
    {
        ArgumentNullException.ThrowIfNull(before);
        _ = NumberedFinding.Of(before with { WithoutFilter = null }, numbers, MostClear);
    }

    /// <summary>The picture's model.</summary>
    /// <param name="now">What lands with the settings.</param>
    /// <param name="before">What landed before; null where nothing has changed since and there is no filter.</param>
    /// <param name="words">What the two are called.</param>
    /// <param name="options">The thresholds in force.</param>
    /// <param name="numbers">Numbers given so far; grows.</param>
    /// <param name="carrier">Index of the picked carrier, or null.</param>
    public static StudyPictureModel Of(
        ReceiverFindings now,
        ReceiverFindings? before,
        ComparisonWords words,
        StudyOptions options,
        Dictionary<ProductRow, int> numbers,
        int? carrier)
    {
        ArgumentNullException.ThrowIfNull(now);
        ReceiverFindings both = now with
        {
            WithoutFilter = before,
            WantedLossDb = before is null
                ? null
                : before.Chain.GainToReceiverInputDb(now.FrequencyHz) - now.Chain.GainToReceiverInputDb(now.FrequencyHz),
        };
        return new StudyPictureModel
        {
            Receiver = both,
            Findings = NumberedFinding.Of(both, numbers, MostClear),
            Carriers = LetteredCarrier.Of(both),
            ResponseDb = both.Chain.GainDb,
            Options = options,
            Words = words,
            PickedCarrier = carrier,
        };
    }

    /// <summary>
    /// What before and after are called under settings, where the before is the file without its filters; null where there is nothing to
    /// compare.
    /// </summary>
    /// <param name="stages">The receiver's stages.</param>
    /// <param name="settings">What was changed.</param>
    public static ComparisonWords? Words(IReadOnlyList<DeskStage> stages, DeskSettings settings)
    {
        ArgumentNullException.ThrowIfNull(stages);
        DeskItem[] switches = [.. stages.Select(static s => s.Switch).OfType<DeskItem>()];
        bool filter = switches.Any(s => settings.Of(s) > 0);
        HashSet<string> outside =
        [
            .. stages.Where(static s => s.Kind != DeskStageKind.Filter).SelectMany(static s => s.Items).Select(static i => i.Id),
        ];
        bool more = settings.Ids.Any(outside.Contains);
        return (filter, more) switch
        {
            (true, false) => ComparisonWords.Filter,
            (true, true) => ComparisonWords.FilterAndMore,
            (false, true) => ComparisonWords.Changes,
            _ => null,
        };
    }

    /// <summary>What was changed, in words, a phrase each: <c>attenuator 0 dB → 3 dB</c>.</summary>
    /// <param name="stages">The receiver's stages.</param>
    /// <param name="settings">What was changed.</param>
    public static IReadOnlyList<string> Changes(IReadOnlyList<DeskStage> stages, DeskSettings settings)
    {
        ArgumentNullException.ThrowIfNull(stages);
        List<string> says = [];
        foreach (DeskStage stage in stages)
        {
            if (stage.Switch is { } choice && settings.Has(choice.Id))
            {
                says.Add($"{stage.Name} {(settings.Of(choice) > 0 ? "in" : "out")}");
            }

            says.AddRange(stage.Items.Where(i => settings.Has(i.Id)).Select(i => stage.Kind switch
            {
                DeskStageKind.Attenuator => $"attenuator {i.Text(settings.Of(i))}",
                DeskStageKind.Transmitter => $"isolator {i.Text(settings.Of(i))}",
                _ => $"{i.Name} {i.Text(settings.Of(i))}",
            }));
        }

        return [.. says.Distinct(StringComparer.Ordinal)];
    }
}
