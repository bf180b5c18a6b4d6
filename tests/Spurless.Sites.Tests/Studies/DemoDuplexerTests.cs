using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Tests.Studies;

/// <summary>
/// The demo's duplexer is what its head says: a series resonator across the line between two stretches of lossy line, swept densely enough
/// for its notch. Nobody measured it.
/// </summary>
public sealed class DemoDuplexerTests
{
    [Fact]
    public void Sweep_of_the_demo_is_that_of_its_resonator_and_dense_enough()
    {
        DiagnosticBag findings = new();
        using FileStream stream = File.OpenRead(TestData.Demo("filters", "duplexer-high.s2p"));
        TouchstoneData data = TouchstoneReader.Read(stream, "duplexer-high.s2p", findings)!;
        Assert.Empty(findings.InOrder());
        MeasuredTwoPort network = MeasuredTwoPort.From(data);
        Assert.Empty(network.Density.Remarks);
        double line = Math.Pow(10, -1.097 / 20), least = Math.Pow(10, -45.003 / 20), bottom = least / (1 - least);
        for (int i = 0; i < data.FrequenciesHz.Length; i++)
        {
            // z = (bottom + jx)/2 across a line: S21 = 2z/(2z + 1), S11 = -1/(2z + 1).
            Complex z = new(bottom, (data.FrequenciesHz[i] - 145.05e6) / 150e3);
            ScatteringMatrix s = data.Points[i];
            Assert.Equal(0, (s.S21 - (line * z / (z + 1))).Magnitude, 3e-4);
            Assert.Equal(0, (s.S11 + (line / (z + 1))).Magnitude, 3e-4);
            Assert.Equal(s.S21, s.S12);
        }
    }
}
