using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Sensitivity;
using Spurless.Circuits.Tolerance;
using Spurless.Reports.Bench;
using Spurless.Reports.Tests.Text;
using Spurless.Sites.Tolerances;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Bench;

/// <summary>What becomes of a circuit when it is built, in words.</summary>
public sealed class ToleranceReadingTests
{
    [Fact]
    public void Becomes_of_a_circuit_without_tolerances_asks_for_them()
    {
        ToleranceReading reading = Read(Topologies.Of("ladder"), null);
        Assert.StartsWith("No part has a tolerance, so nothing spreads", reading.Sentence, StringComparison.Ordinal);
        Assert.Contains(reading.Assumptions, static a => a.EndsWith("no tolerance stated, held at the value drawn",
            StringComparison.Ordinal));
    }

    /// <summary>A wire in series with a tenth of an ohm loses next to nothing: no figure of it is a negative zero.</summary>
    [Theory]
    [InlineData(1e-3)]
    [InlineData(0.01)]
    [InlineData(50)]
    public void Becomes_of_what_loses_nothing_has_no_negative_zero(double ohm)
    {
        Circuit wire = new()
        {
            Name = "wire",
            PortIn = "a",
            PortOut = "b",
            Parts = [new Resistor { Name = "R1", From = "a", To = "b", Resistance = PartValue.Known(ohm) }],
        };
        string says = Read(wire, 0.05).Sentence;
        WrittenText.Figures(says);
        WrittenText.Agree(says);
    }

    [Fact]
    public void Assumed_names_every_part_that_states_none_once()
    {
        ToleranceReading reading = Read(Topologies.Of("ladder"), 0.1);
        string asked = reading.Assumptions.Single(static a => a.Contains("as asked for parts", StringComparison.Ordinal));
        Assert.Equal(
            Topologies.Of("ladder").Parts.Where(static p => p.Tolerance is null).Select(static p => p.Name),
            asked.Split(':')[0].Split(", "));
    }

    [Fact]
    public void Shortfalls_stand_worst_first_and_only_of_what_is_missed() => Gen.Select(
        Gen.Enum<MaskDemand>(), Gen.Double[-10, 10], Gen.Double[100, 400]).Array[0, 6].Sample(static of =>
        {
            ToleranceReading reading = Read(Topologies.Of("ladder"), null) with
            {
                Mask = [.. of.Select(static f => Finding(f.Item1, f.Item2, f.Item3 * 1e6))],
            };
            string[] said = [.. reading.Shortfalls];
            MaskFinding[] missed = [.. reading.Mask.Where(static f => !f.Met).OrderBy(static f => f.MarginDb)];
            Assert.Equal(missed.Length, said.Length);
            foreach ((MaskFinding finding, string says) in missed.Zip(said))
            {
                Assert.StartsWith("as drawn ", says, StringComparison.Ordinal);
                WrittenText.Figures(says);
                Assert.Contains(
                    (-finding.MarginDb).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture) + " dB", says,
                    StringComparison.Ordinal);
            }
        });

    [Fact]
    public void Quantities_have_words_and_keys_of_their_own_with_the_unit_at_the_end()
    {
        PartQuantity[] all = Enum.GetValues<PartQuantity>();
        Assert.Equal(all.Length, all.Select(static q => ToleranceReading.Quantity(q).Key).Distinct().Count());
        Assert.Equal(all.Length, all.Select(static q => ToleranceReading.Quantity(q).Words).Distinct().Count());
        Assert.All(all, static q => Assert.Matches("^[a-z_]+$", ToleranceReading.Quantity(q).Key));
    }

    private static MaskFinding Finding(MaskDemand demand, double margin, double hertz)
    {
        MaskLine line = new(hertz, hertz, MostLossDb: 3, LeastLossDb: 20, LeastReturnLossDb: 10);
        double needed = demand switch { MaskDemand.PassLoss => 3, MaskDemand.ReturnLoss => 10, _ => 20 };
        return new MaskFinding(line, demand, hertz, needed, demand == MaskDemand.PassLoss ? needed - margin : needed + margin);
    }

    private static ToleranceReading Read(Circuit circuit, double? others) => ToleranceReading.Of(ToleranceService.Ask(new ToleranceQuestion
    {
        Circuit = circuit,
        Samples = 60,
        Others = others is { } f ? new OtherTolerance(PartTolerance.Uniform(f), "as said") : null,
    }).Answer!);
}
