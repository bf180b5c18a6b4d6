using System.Collections.Immutable;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>Searches what one transmitter makes, on the receivers that it is known to reach.</summary>
internal static class TransmitterRun
{
    /// <summary>Which receivers it reaches with a known level.</summary>
    /// <param name="stage">The transmitter.</param>
    /// <param name="receivers">The receivers.</param>
    /// <returns>Their indices, ascending.</returns>
    public static int[] Reached(TransmitterStage stage, IEnumerable<ReceiverSetup> receivers) =>
        [.. receivers.Index().Where(r => r.Item.Reaches[stage.Emitter].ReferenceDbm is not null).Select(static r => r.Index)];

    /// <summary>Searches; the sink's receivers are those reached, in their order.</summary>
    /// <param name="stage">The transmitter.</param>
    /// <param name="problem">The search that was made for the receivers' own stages.</param>
    /// <param name="receivers">The receivers of <paramref name="problem"/>.</param>
    /// <param name="reached">Indices of those to search on; nothing is done for none.</param>
    /// <param name="reach">With which reach each counts.</param>
    /// <param name="sink">Takes what is found.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static void Search(
        TransmitterStage stage,
        SearchProblem problem,
        IReadOnlyList<ReceiverSetup> receivers,
        int[] reached,
        Func<TransmitterReach, TransmitterReach> reach,
        IProductSink sink,
        CancellationToken cancellationToken)
    {
        if (reached.Length == 0)
        {
            return;
        }

        // Whose arrival at this transmitter is unknown is never on the air with it, as far as this search goes: thousands of mixtures
        // without a level say less than the one sentence on what is missing.
        IEnumerable<ImmutableArray<int>> unknown = Enumerable.Range(0, problem.Emitters.Length)
            .Where(i => stage.UnderPowerDb(i) is null)
            .Select(i => (ImmutableArray<int>)[stage.Emitter, i]);
        SearchProblem own = problem with
        {
            Receivers = [.. reached.Select(r => problem.Receivers[r] with { Stages = [] })],
            ExclusiveGroups = [.. problem.ExclusiveGroups, .. unknown],
        };
        TransmitterSearchInput input = TransmitterSearchInput.From(
            own,
            stage,
            [.. reached.Select(r => reach(receivers[r].Reaches[stage.Emitter]))],
            [.. reached.Select(r => receivers[r].Chain.GainToReceiverInputDb(receivers[r].FrequencyHz))]);
        TransmitterSearch.Run(input, sink, null, cancellationToken);
    }
}
