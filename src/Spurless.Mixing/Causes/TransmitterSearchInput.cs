using System.Collections.Immutable;

using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Causes;

/// <summary>The output stage of one transmitter as the search sees it. Immutable.</summary>
/// <remarks>In decibels a product's level at receiver r is linear: <c>reach(r) - sum over i other than A of |k_i| D_i - T(n)</c> with
/// <c>D_i = P_A - P_i,A</c>; each figure is rounded to micro-dB once, as everywhere in the search.</remarks>
public sealed record TransmitterSearchInput
{
    /// <summary>Emitters, receivers (frequency, channel and floor; their stages are not looked at), limits and exclusive groups.</summary>
    public required SearchProblem Problem { get; init; }

    /// <summary>Index of the transmitter A among the emitters.</summary>
    public required int Transmitter { get; init; }

    /// <summary>D_i in micro-dB by emitter; <see cref="MicroDb.Unknown"/> where unknown. The entry of A is not looked at.</summary>
    public required ImmutableArray<int> UnderPowerMicroDb { get; init; }

    /// <summary>T by order in micro-dB: ten entries, of which 2 to 9 are used; <see cref="MicroDb.Unknown"/> where unknown.</summary>
    public required ImmutableArray<int> TurnRoundMicroDb { get; init; }

    /// <summary>Reach by receiver, referred to the receiver's input, in micro-dBm; <see cref="MicroDb.Unknown"/> where unknown.</summary>
    public required ImmutableArray<int> ReachMicroDbm { get; init; }

    /// <summary>Rounds a stage and its reaches.</summary>
    /// <param name="problem">Emitters, receivers, limits.</param>
    /// <param name="stage">The transmitter.</param>
    /// <param name="reaches">Its reach to each receiver of the problem.</param>
    /// <param name="chainGainsDb">Gain from each receiver's antenna connector to its input on its channel, in dB.</param>
    /// <returns>The input.</returns>
    public static TransmitterSearchInput From(
        SearchProblem problem, TransmitterStage stage, IReadOnlyList<TransmitterReach> reaches, ReadOnlySpan<double> chainGainsDb)
    {
        if (reaches.Count != problem.Receivers.Length || chainGainsDb.Length != problem.Receivers.Length)
        {
            throw new ArgumentException("one reach and one gain per receiver", nameof(reaches));
        }

        int[] reach = new int[reaches.Count];
        for (int r = 0; r < reach.Length; r++)
        {
            reach[r] = Rounded(reaches[r].ReferenceDbm + chainGainsDb[r]);
        }

        return new TransmitterSearchInput
        {
            Problem = problem,
            Transmitter = stage.Emitter,
            UnderPowerMicroDb = [.. Enumerable.Range(0, problem.Emitters.Length).Select(i => Rounded(stage.UnderPowerDb(i)))],
            TurnRoundMicroDb = [.. Enumerable.Range(0, Multinomial.MaxOrder + 1).Select(n => n < 2 ? 0 : Rounded(stage.TurnRound?.At(n)))],
            ReachMicroDbm = [.. reach],
        };
    }

    internal long LevelMicroDbm(int receiver, int order, long underMicroDb) =>
        TurnRoundMicroDb[order] == MicroDb.Unknown || ReachMicroDbm[receiver] == MicroDb.Unknown
            ? ProductRecord.UnknownLevel
            : ReachMicroDbm[receiver] - underMicroDb - TurnRoundMicroDb[order];

    internal void Validate()
    {
        Problem.Validate();
        if (Transmitter < 0 || Transmitter >= Problem.Emitters.Length || UnderPowerMicroDb.Length != Problem.Emitters.Length
            || TurnRoundMicroDb.Length != Multinomial.MaxOrder + 1 || ReachMicroDbm.Length != Problem.Receivers.Length)
        {
            throw new ArgumentException("Transmitter search: one figure per emitter, order and receiver.");
        }
    }

    private static int Rounded(double? db) => db is { } value ? MicroDb.Clamped(value) : MicroDb.Unknown;
}
