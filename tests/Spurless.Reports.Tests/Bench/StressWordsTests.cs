using Spurless.Circuits.Stress;
using Spurless.Reports.Bench;

namespace Spurless.Reports.Tests.Bench;

public class StressWordsTests
{
    private static readonly PartStress Coil = new("L2", 312.4, 6.8, 7.5, 6.67, new(StressQuantity.Heat, 1), true) { Exceeded = true };
    private static readonly PartStress Line = new("W1", 70, 1, 1.1, null, null, false);

    [Fact]
    public void Sentence_begins_with_the_answer()
    {
        Assert.Equal(
            "No, do not transmit through it: 50 W leave 7.5 W of heat in it, 7.5 W of that in L2 at 6.8 A, and put 312 V peak across L2; "
                + "L2 gives first (1 W assumed), at about 6.67 W.",
            StressWords.Sentence(Result(Coil, Coil)));
        PartStress bears = Coil with { Exceeded = false, LimitPowerW = 120, Limit = new(StressQuantity.Current, 12), LimitAssumed = false };
        Assert.StartsWith("Yes, it bears 50 W: ", StressWords.Sentence(Result(bears, bears)), StringComparison.Ordinal);
        Assert.EndsWith(
            "; L2 gives first (12 A rated), at about 120 W.", StressWords.Sentence(Result(bears, bears)), StringComparison.Ordinal);
    }

    [Fact]
    public void Sentence_without_a_limit_says_that_it_cannot_be_told()
    {
        Assert.StartsWith(
            "That cannot be told, for no part has a limit", StressWords.Sentence(Result(null, Line)), StringComparison.Ordinal);
        Assert.Null(StressWords.Limit(Line));
        Assert.Equal("Yes: there is no part that 50 W could harm.", StressWords.Sentence(Result(null)));
    }

    [Fact]
    public void Assumptions_name_the_parts()
    {
        StressResult stress = Result(null, Line) with
        {
            Assumptions =
            [
                new(["W1"], StressAssumptionKind.NotJudged), new(["C1", "C2"], StressAssumptionKind.SmallCapacitors),
                new(["C1"], StressAssumptionKind.Lossless),
            ],
        };
        Assert.Equal(
            [
                "W1: no rating stated and none usual: not judged",
                "C1, C2: no rating stated, 50 V and 0.25 W taken as usual for small capacitors (common practice; a large variable one "
                    + "bears more, a chip less)",
                "C1: neither q nor esr stated, counted as lossless: their heat is missing",
            ],
            StressWords.Assumptions(stress));
    }

    [Fact]
    public void Cautions_fit_the_parts_of_the_circuit()
    {
        StressResult chips = Result(null);
        StressResult pad = chips with { HasResistors = true, HasCapacitors = false };
        Assert.Contains(StressWords.Cautions(pad), static c => c.StartsWith("Beryllia", StringComparison.Ordinal));
        Assert.Contains(StressWords.Cautions(pad), static c => c.StartsWith("A part that opens", StringComparison.Ordinal));
        Assert.DoesNotContain(StressWords.Cautions(chips), static c => c.Contains("eryllia", StringComparison.Ordinal));
        Assert.Contains(StressWords.Cautions(chips), static c => c.StartsWith("A capacitor that opens", StringComparison.Ordinal));
        Assert.Contains(StressWords.Cautions(pad), static c => c.Contains("licence", StringComparison.Ordinal));
        Assert.Contains(StressWords.Cautions(chips), static c => c.Contains("licence", StringComparison.Ordinal));
    }

    private static StressResult Result(PartStress? first, params PartStress[] parts) => new()
    {
        Request = new StressRequest(50, 145.65e6, StressLoad.Matched),
        AvailableW = 50,
        DeliveredW = 42.5,
        ReflectedW = 0,
        DissipatedW = 7.5,
        WorstPhasePartByPart = false,
        BalanceError = 0,
        Parts = parts,
        MayTransmit = !parts.Any(static p => p.Exceeded),
        SafePowerW = first?.LimitPowerW,
        GivesFirst = first,
        Assumptions = [],
        HasResistors = false,
        HasCapacitors = true,
    };
}
