using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Tests.Common;

namespace Spurless.Fit.Tests;

/// <summary>The cases of the fit are what they are said to be, and do not change.</summary>
public sealed class FitCaseTests
{
    [Fact]
    public void Cases_are_filters_of_five_families_with_estimates_near_the_truth()
    {
        for (int number = 0; number < FitCase.Count; number++)
        {
            FitCase one = FitCase.Make(number);
            Assert.True(one.Traced.Parts.Count(static p => p is Capacitor { HasUnknown: true }) >= 2);
            foreach (Inductor coil in one.Traced.Parts.OfType<Inductor>())
            {
                // Ten per cent, one sigma: none of some 700 beyond five.
                Assert.InRange(Math.Log(coil.Inductance.Require() / one.Truth(coil.Name, CircuitQuantity.InductanceH)), -0.5, 0.5);
            }

            TouchstoneData sweep = one.Sweep();
            double best = sweep.Points.Max(static p => p.S21.Magnitude);
            Assert.InRange(best, 0.02, 1.02);
            Assert.True(sweep.Points[0].S21.Magnitude < best);
        }
    }

    [Fact]
    public void Sweep_of_the_demo_is_what_its_maker_makes()
    {
        string folder = Path.Combine(TestData.Path(""), "..", "..", "demo", "filters");
        string made = DemoUnmarkedSweep.Make(Path.Combine(folder, "unmarked.circuit.yaml"));
        string fresh = Path.Combine(AppContext.BaseDirectory, "unmarked.s2p");
        File.WriteAllText(fresh, made);
        string path = Path.Combine(folder, "unmarked.s2p");
        Assert.True(File.Exists(path), "demo/filters/unmarked.s2p is missing; the test has written it beside itself, to be copied there");
        string committed = File.ReadAllText(path).ReplaceLineEndings("\n");
        Assert.Contains("invented", committed.Split('\n')[0], StringComparison.Ordinal);
        TouchstoneData expected = Read(made), found = Read(committed);
        Assert.Equal(expected.FrequenciesHz.AsEnumerable(), found.FrequenciesHz.AsEnumerable());
        for (int i = 0; i < expected.Points.Length; i++)
        {
            // The last printed digit may differ where another machine's sine rounds otherwise.
            Near(expected.Points[i].S11, found.Points[i].S11);
            Near(expected.Points[i].S12, found.Points[i].S12);
            Near(expected.Points[i].S21, found.Points[i].S21);
            Near(expected.Points[i].S22, found.Points[i].S22);
        }
    }

    private static void Near(Complex expected, Complex found) => Assert.InRange((expected - found).Magnitude, 0, 3e-6);

    private static TouchstoneData Read(string text)
    {
        DiagnosticBag diagnostics = new();
        using MemoryStream stream = new(System.Text.Encoding.UTF8.GetBytes(text));
        return TouchstoneReader.Read(stream, "unmarked.s2p", diagnostics) ?? throw new InvalidOperationException(
            string.Join('\n', diagnostics.InOrder()));
    }
}
