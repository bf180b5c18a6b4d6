using Spurless.Circuits.Coils;
using Spurless.Reports.Bench;

namespace Spurless.Reports.Tests.Bench;

public class CoilWarningWordsTests
{
    public static TheoryData<CoilWarning, string> Sentences => new()
    {
        {
            new CoilWarning.TurnsDoNotFit(5, 1e-3, 3.8e-3),
            "the turns do not fit: 5 turns of 1 mm wire need 5 mm, the coil is 3.8 mm long"
        },
        { new CoilWarning.UnderOneTurn(), "under one turn the current sheet is no model of the coil" },
        { new CoilWarning.UnderThreeTurns(false), "under three turns the leads are a good part of the inductance; state their length" },
        {
            new CoilWarning.UnderThreeTurns(true),
            "under three turns the leads are a good part of the inductance, and where they run matters"
        },
        {
            new CoilWarning.SelfCapacitanceOutOfRange(0.06),
            "the self-capacitance is known for lengths of 0.1 to 50 diameters, here it is 0.06; the nearest figure is taken"
        },
        {
            new CoilWarning.AboveResonance(1e9, 435.4e6),
            "at 1000 MHz the coil is above its self-resonance (435.4 MHz) and no inductor"
        },
        {
            new CoilWarning.NearResonance(300e6, 435.4e6),
            "at 300 MHz the self-resonance (435.4 MHz) is near: the coil acts as more than its inductance, and its Q falls"
        },
        {
            new CoilWarning.NoHelix(1.834),
            "1.83 turns are too few for a helix; take a smaller shield, or a straight quarter-wave line"
        },
        {
            new CoilWarning.ShorterThanWide(0.0123),
            "the line is shorter (12.3 mm) than it is wide; its ends' fields, which are not in the formulas, matter"
        },
    };

    [Theory]
    [MemberData(nameof(Sentences))]
    public void Of_a_warning_says_the_figures(CoilWarning warning, string says) => Assert.Equal(says, CoilWarningWords.Of(warning));

    [Fact]
    public void Of_knows_every_warning()
    {
        CoilWarning[] all =
        [
            .. typeof(CoilWarning).GetNestedTypes().Where(static t => t.IsSubclassOf(typeof(CoilWarning)))
                .Select(static t => t.GetConstructors()[0])
                .Select(static c => (CoilWarning)c.Invoke(
                    [.. c.GetParameters().Select(static p => (object)(p.ParameterType == typeof(bool) ? true : 1.0))])),
        ];
        Assert.True(all.Length >= 14, $"{all.Length} warnings were found");
        Assert.Equal(all.Length, all.Select(CoilWarningWords.Of).Distinct().Count());
    }
}
