using Spurless.Circuits.Coils;
using Spurless.Design.Winding;

namespace Spurless.Design.Tests.Designing;

public class CoilWinderTests
{
    [Theory]
    [InlineData(12e-9, 145e6)]
    [InlineData(40e-9, 145e6)]
    [InlineData(300e-9, 145e6)]
    [InlineData(1.5e-6, 28e6)]
    public void Wind_gives_the_inductance_at_the_frequency_in_whole_turns_that_fit(double henries, double hertz)
    {
        WoundCoil coil = CoilWinder.Wind("L1", henries, hertz, 150)!;
        CoilResult result = CoilCalculator.Compute(coil.Geometry, hertz);
        Assert.Equal(1, result.InductanceAtFrequencyH!.Value / henries, 1e-6);
        Assert.Equal(result.InductanceH + result.LeadInductanceH, coil.LowFrequencyH, 1e-15);
        Assert.InRange(coil.LowFrequencyH / henries, 1.005, 1.15);
        Assert.Equal(Math.Round(coil.Geometry.Turns), coil.Geometry.Turns);
        Assert.True(coil.Geometry.LengthM >= coil.Geometry.Turns * coil.Geometry.WireM);
        Assert.Equal(coil.InsideM + coil.Geometry.WireM, coil.Geometry.DiameterM, 1e-9);
    }

    /// <summary>Pressed or pulled to another inductance it has that one at the frequency too.</summary>
    [Fact]
    public void Adjust_keeps_to_the_inductance_at_the_frequency()
    {
        WoundCoil coil = CoilWinder.Wind("L1", 40e-9, 145e6, 150)!, moved = CoilWinder.Adjust(coil, 42e-9, 145e6)!;
        Assert.Equal(42e-9, CoilCalculator.Compute(moved.Geometry, 145e6).InductanceAtFrequencyH!.Value, 1e-14);
        Assert.Equal(coil.Geometry.Turns, moved.Geometry.Turns);
    }
}
