using System.Globalization;
using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Reports.Responses;
using Spurless.Reports.Tests.Text;
using Spurless.Sites.Responses;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Responses;

/// <summary>What the page of a response shows: its frames hold the pass-band, its figures are the network's.</summary>
public sealed class ResponseViewTests
{
    public static TheoryData<string> Every =>
    [
        "ladder", "traps in shunt and series", "notch by a tank under a capacitor", "tanks with a capacitor over the middle one",
        "bridged T",
    ];

    [Theory]
    [MemberData(nameof(Every))]
    public void Plots_are_the_networks_figures_within_their_scales(string name)
    {
        (ResponseView view, CircuitTwoPort network) = View(Topologies.Of(name));
        Assert.True(view.HasPlots);
        Assert.True(view.WideFrom <= view.DetailFrom && view.DetailTo <= view.WideTo);
        for (int i = 0; i <= 60; i++)
        {
            double hertz = view.DetailFrom + ((view.DetailTo - view.DetailFrom) * i / 60);
            Complex s21 = network.At(hertz).S21, s11 = network.At(hertz).S11;
            Assert.Equal(Math.Max(-400, 20 * Math.Log10(s21.Magnitude)), view.GainDb(hertz), 1e-9);
            Assert.Equal(-20 * Math.Log10(Math.Max(1e-10, s11.Magnitude)), view.ReturnLossDb(hertz), 1e-9);
            Assert.Equal(view.GainDb(hertz), view.Magnitude.Quantity(hertz));
            Assert.True(view.GainDb(hertz) <= view.PassBand.High + 1e-9, "nothing passive stands over the scale");
        }

        Assert.True(view.Magnitude.Logarithmic);
        Assert.True(view.Magnitude.Low < view.Magnitude.High && view.PassBand.Low < view.PassBand.High);
        WrittenText.Figures(view.Answer);
    }

    [Theory]
    [MemberData(nameof(Every))]
    public void Beyond_the_network_nothing_is_claimed(string name)
    {
        (ResponseView view, CircuitTwoPort _) = View(Topologies.Of(name));
        Assert.True(double.IsNaN(view.GainDb(0)) && double.IsNaN(view.GainDb(-1)));
        Assert.False(view.Covers(0) || view.Covers(-145e6));
        Assert.True(double.IsNaN(view.ReturnLossDb(-145e6)));
    }

    /// <summary>A matched pad of any size: its loss is the answer, to the printed digit.</summary>
    [Fact]
    public void Answer_of_a_pad_of_any_size_is_its_loss() => Gen.Double[0.1, 30].Sample(static db =>
    {
        // A matched pi pad of a dB: shunt R = 50 (k + 1)/(k - 1), series R = 50 (k^2 - 1)/(2 k), k = 10^(a/20).
        double k = Math.Pow(10, db / 20), shunt = 50 * (k + 1) / (k - 1), series = 50 * ((k * k) - 1) / (2 * k);
        Resistor Of(string part, string from, string to, double ohm) => new()
        {
            Name = part,
            From = from,
            To = to,
            Resistance = PartValue.Known(ohm),
        };
        Circuit pad = new()
        {
            Name = "pad",
            PortIn = "a",
            PortOut = "b",
            Parts = [Of("R1", "a", Circuit.Ground, shunt), Of("R2", "a", "b", series), Of("R3", "b", Circuit.Ground, shunt)],
        };
        (ResponseView view, CircuitTwoPort _) = View(pad);
        WrittenText.Figures(view.Answer);
        Assert.Equal(-db, view.GainDb(145e6), 1e-6);
        string[] near = [.. ((double[])[db - 1e-6, db + 1e-6]).Select(static v =>
            Math.Round(v, 1, MidpointRounding.AwayFromZero).ToString("0.0", CultureInfo.InvariantCulture) + "\u00A0dB")];
        Assert.Contains(
            near.FirstOrDefault(n => view.Answer.Contains(n, StringComparison.Ordinal)) ?? near[0], view.Answer,
            StringComparison.Ordinal);
    });

    private static (ResponseView View, CircuitTwoPort Network) View(Circuit circuit)
    {
        CircuitTwoPort network = new(CircuitSolver.Create(circuit));
        return (
            new ResponseView(new ResponseAnswer
            {
                Result = ResponseCalculator.Compute(network, circuit.Name, ResponseCalculator.DefaultFrequencies(network, 145e6)),
                Network = network,
                Circuit = circuit,
            }),
            network);
    }
}
