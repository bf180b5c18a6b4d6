using Spurless.Sites.Coils;

namespace Spurless.Sites.Tests.Coils;

public class CoilServiceTests
{
    // Not as long as wide: there the two halves of the formula for a current sheet meet with a step of 3e-6.
    private static readonly AirCoilQuestion Coil = new() { Turns = 5, DiameterM = 10e-3, LengthM = 12e-3, WireM = 1e-3 };

    /// <summary>There and back: the turns found for a coil's inductance are the coil's.</summary>
    [Fact]
    public void Ask_turns_for_the_inductance_of_a_coil_are_its_turns()
    {
        AirCoilAnswer forward = Assert.IsType<AirCoilAnswer>(CoilService.Ask(Coil).Answer);
        Assert.Null(forward.Whole);
        AirCoilAnswer back =
            Assert.IsType<AirCoilAnswer>(CoilService.Ask(Coil with { Turns = null, InductanceH = forward.Coil.InductanceH }).Answer);
        Assert.Equal(5, back.Coil.Geometry.Turns, 1e-9);
        Assert.Equal(5, back.Whole!.Turns);
        Assert.Equal(12e-3, back.Whole.LengthM!.Value, 1e-9);
    }

    /// <summary>At VHF the same winding has less: what is wound for a frequency has the inductance there, by its dimensions.</summary>
    [Fact]
    public void Ask_inductance_at_a_frequency_gives_the_winding_that_has_it_there()
    {
        AirCoilQuestion wanted = Coil with { Turns = null, InductanceH = 150e-9, FrequencyHz = 146e6 };
        AirCoilAnswer answer = Assert.IsType<AirCoilAnswer>(CoilService.Ask(wanted).Answer);
        Assert.Equal(150e-9, answer.Coil.InductanceH, 1e-15);
        Assert.InRange(answer.Coil.InductanceAtFrequencyH!.Value, 140e-9, 146e-9);
        foreach ((double turns, double length) in
            new[] { (answer.AtFrequency!.Turns, 12e-3), (answer.AtFrequency.Whole.Turns, answer.AtFrequency.Whole.LengthM!.Value) })
        {
            AirCoilQuestion wound = Coil with { Turns = turns, LengthM = length, FrequencyHz = 146e6 };
            Assert.Equal(
                150e-9, Assert.IsType<AirCoilAnswer>(CoilService.Ask(wound).Answer).Coil.InductanceAtFrequencyH!.Value, 1e-14);
        }

        Assert.Null(Assert.IsType<AirCoilAnswer>(CoilService.Ask(wanted with { FrequencyHz = null }).Answer).AtFrequency);
    }

    [Fact]
    public void Ask_former_adds_the_wire()
    {
        AirCoilAnswer answer = Assert.IsType<AirCoilAnswer>(CoilService.Ask(Coil with { DiameterM = null, FormerM = 9e-3 }).Answer);
        Assert.Equal(10e-3, answer.Coil.Geometry.DiameterM, 1e-15);
    }

    [Fact]
    public void Ask_impossible_coil_is_refused()
    {
        Outcome<CoilAnswer> outcome = CoilService.Ask(Coil with { DiameterM = 1e-3 });
        Assert.Null(outcome.Answer);
        Assert.Contains("as thick as the coil", outcome.Refusal!.What, StringComparison.Ordinal);
        Assert.Equal(outcome.Refusal.ToString(), outcome.Problem);
    }

    [Fact]
    public void Ask_turns_and_inductance_together_is_our_own_fault() =>
        Assert.Throws<ArgumentException>(static () => CoilService.Ask(Coil with { InductanceH = 1e-7 }));

    /// <summary>L = A_L n^2: 10 turns on 5 nH are 500 nH; for 1 uH it takes the root of 200, in whole turns 14, which are 980 nH.</summary>
    [Fact]
    public void Ask_ring_core()
    {
        RingCoreAnswer turns =
            Assert.IsType<RingCoreAnswer>(CoilService.Ask(new RingCoreQuestion { InductancePerTurnSquaredH = 5e-9, Turns = 10 }).Answer);
        Assert.Equal(500e-9, turns.InductanceH, 1e-18);
        RingCoreAnswer wanted =
            Assert.IsType<RingCoreAnswer>(
            CoilService.Ask(new RingCoreQuestion { InductancePerTurnSquaredH = 5e-9, InductanceH = 1e-6 }).Answer);
        Assert.Equal(Math.Sqrt(200), wanted.Turns, 1e-9);
        Assert.Equal(14, wanted.WholeTurns);
        Assert.Equal(980e-9, wanted.WholeInductanceH, 1e-15);
    }

    /// <summary>A quarter of the wavelength, 299,792,458 m/s over 4 x 150 MHz; a capacitor at the end shortens it.</summary>
    [Fact]
    public void Ask_coaxial_line_is_a_quarter_wave_that_a_capacitor_shortens()
    {
        CoaxialQuestion question = new() { FrequencyHz = 150e6, InnerM = 10e-3, OuterM = 36e-3 };
        CoaxialAnswer whole = Assert.IsType<CoaxialAnswer>(CoilService.Ask(question).Answer);
        Assert.Equal(299_792_458.0 / 600e6, whole.Line.LengthM, 1e-9);
        Assert.True(Assert.IsType<CoaxialAnswer>(CoilService.Ask(question with { EndF = 5e-12 }).Answer).Line.LengthM < whole.Line.LengthM);
    }
}
