using Spurless.Circuits.Parts;
using Spurless.Sites.Stresses;

namespace Spurless.Sites.Tests.Stresses;

public class StressServiceTests
{
    /// <summary>
    /// A resistor of the port's impedance in line: Ohm's law gives the load four ninths of the available power, the resistor the same, a
    /// ninth returns.
    /// </summary>
    [Fact]
    public void Ask_series_resistor_shares_the_power()
    {
        StressAnswer answer = StressService.Ask(new StressQuestion
        {
            Circuit = Circuit(Resistor("a", "b")),
            PowerW = 9,
            FrequencyHz = 145e6,
        }).Answer!;
        Assert.Equal(4, answer.Result.DeliveredW, 1e-9);
        Assert.Equal(4, answer.Result.DissipatedW, 1e-9);
        Assert.Equal(1, answer.Result.ReflectedW, 1e-9);
    }

    [Fact]
    public void Ask_faulty_circuit_has_its_faults_and_no_answer()
    {
        Outcome<StressAnswer> outcome =
            StressService.Ask(new StressQuestion { Circuit = Circuit(Resistor("a", "a")), FrequencyHz = 145e6 });
        Assert.Null(outcome.Answer);
        Assert.Null(outcome.Refusal);
        Assert.Contains(outcome.Faults, static f => f.Parts.Contains("R1"));
        Assert.Equal(outcome.Faults[0].ToString(), outcome.Problem);
    }

    private static Resistor Resistor(string from, string to) =>
        new() { Name = "R1", From = from, To = to, Resistance = PartValue.Known(50) };

    private static Circuit Circuit(params Part[] parts) => new() { Name = "test", PortIn = "a", PortOut = "b", Parts = [.. parts] };
}
