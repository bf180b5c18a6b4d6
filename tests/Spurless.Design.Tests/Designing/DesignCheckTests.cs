using Spurless.Design.Questions;

namespace Spurless.Design.Tests.Designing;

public class DesignCheckTests
{
    [Fact]
    public void Faults_of_a_sound_requirement_are_none() => Assert.Empty(DesignCheck.Faults(DemoRequirement.Question));

    [Fact]
    public void Faults_names_all_at_once_with_what_to_write()
    {
        IReadOnlyList<DesignFault> faults = DesignCheck.Faults(DemoRequirement.Question with
        {
            Reject = [new(145e6, 145e6, 20), new(160e6, 160e6, 300)],
            Parts = new PartLimits
            {
                InductorQ = new(0, 146e6),
                InductorsH = (5e-9, 2e-9),
                CapacitorsF = (1.01e-12, 1.02e-12),
                Series = 12
            },
            TransmitW = -1,
        });
        Assert.Equal(["reject", "reject", "parts", "parts", "parts", "transmit"], faults.Select(static f => f.Key));
        Assert.All(faults, static f => Assert.NotEmpty(f.Remedy));
        Assert.Equal([0, 1], faults.Take(2).Select(static f => f.Index));
    }

    [Fact]
    public void Faults_of_a_band_outside_the_models_says_their_range() =>
        Assert.Contains("1000 MHz", DesignCheck.Faults(DemoRequirement.Question with { PassFromHz = 2.3e9, PassToHz = 2.31e9 })[0].Remedy,
            StringComparison.Ordinal);
}
