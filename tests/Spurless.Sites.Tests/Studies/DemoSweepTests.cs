using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Tests.Studies;

/// <summary>The demo's 'measured' sweep is what its maker makes, and does in line what the traced filter does, nearly.</summary>
public sealed class DemoSweepTests
{
    [Fact]
    public void Sweep_of_the_demo_is_what_its_maker_makes()
    {
        string made = DemoSweep.Make(Demo("filters", "three-tank.circuit.yaml"));
        string path = Demo("filters", "three-tank.s2p");
        string fresh = Path.Combine(AppContext.BaseDirectory, "three-tank.s2p");
        File.WriteAllText(fresh, made);
        Assert.True(File.Exists(path), "demo/filters/three-tank.s2p is missing; the test has written it beside itself, to be copied there");
        string committed = File.ReadAllText(path).ReplaceLineEndings("\n");
        Assert.Equal(Head(made), Head(committed));
        Assert.Contains("invented", Head(committed), StringComparison.Ordinal);
        MeasuredTwoPort expected = Sweep(made);
        MeasuredTwoPort found = Sweep(committed);
        Assert.Equal(expected.FrequenciesHz.AsEnumerable(), found.FrequenciesHz.AsEnumerable());

        // The last printed digit may differ where another machine's sine rounds otherwise.
        for (int i = 0; i < expected.Points.Length; i++)
        {
            Near(expected.Points[i].S11, found.Points[i].S11);
            Near(expected.Points[i].S12, found.Points[i].S12);
            Near(expected.Points[i].S21, found.Points[i].S21);
            Near(expected.Points[i].S22, found.Points[i].S22);
        }

        Assert.True(found.Passivity.IsPassive, $"{found.Passivity}");
    }

    [Fact]
    public void Study_with_the_measured_sweep_cures_what_the_traced_filter_cures()
    {
        ReceiverFindings traced = Study("quernmoss-filtered.site.yaml");
        ReceiverFindings measured = Study("quernmoss-measured.site.yaml");
        Assert.Equal((6, 1), (measured.WithoutFilter!.Harmful, measured.Harmful));

        // By how much the made sweep may be off: values within 1.2 %, so a few hundred kHz; -90 dB of leakage under the traced filter's far
        // rejection.
        Assert.Equal(traced.WantedLossDb!.Value, measured.WantedLossDb!.Value, 1.0);
        Assert.NotEqual(traced.WantedLossDb.Value, measured.WantedLossDb.Value, 0.001);
        for (int i = 0; i < traced.Carriers.Count; i++)
        {
            double nominal = traced.Carriers[i].Rejection!.NominalDb;
            double sweep = measured.Carriers[i].Rejection!.NominalDb;
            Assert.True(
                nominal > 75 ? sweep is > 75 and < 110 : Math.Abs(nominal - sweep) < 3,
                $"{traced.Carriers[i].Emitter}: {nominal} and {sweep} dB");
        }

        // A measurement holds its own leakage: the note on leakage is for computed circuits only.
        Assert.Contains(traced.Assumed, static a => a is ReceiverAssumption.LeakageNotStated);
        Assert.DoesNotContain(measured.Assumed, static a => a is ReceiverAssumption.LeakageNotStated);
    }

    [Fact]
    public void Site_with_the_sweep_differs_from_the_traced_one_by_its_filter_only()
    {
        string[] traced = [.. File.ReadAllLines(Demo("quernmoss-filtered.site.yaml")).Where(static l => !l.StartsWith('#'))];
        string[] measured = [.. File.ReadAllLines(Demo("quernmoss-measured.site.yaml")).Where(static l => !l.StartsWith('#'))];
        Assert.Equal(
            traced.Select(
                static l =>
                    l.Replace("circuit: filters/three-tank.circuit.yaml", "two_port: filters/three-tank.s2p", StringComparison.Ordinal)),
            measured);
    }

    private static void Near(Complex expected, Complex found) =>
        Assert.True(
            (expected - found).Magnitude <= 1e-10 + (1e-5 * expected.Magnitude), $"{expected} was made, {found} stands in the file");

    private static string Head(string file) =>
        string.Join('\n', file.Split('\n').TakeWhile(static l => l.StartsWith('!') || l.StartsWith('#')));

    private static MeasuredTwoPort Sweep(string text)
    {
        DiagnosticBag diagnostics = new();
        using MemoryStream stream = new(System.Text.Encoding.UTF8.GetBytes(text));
        TouchstoneData? data = TouchstoneReader.Read(stream, "three-tank.s2p", diagnostics);
        Assert.Empty(diagnostics.InOrder());
        return MeasuredTwoPort.From(data!);
    }

    private static ReceiverFindings Study(string file)
    {
        LoadedSite? site = SiteLoader.Load(Path.GetFullPath(Demo(file)), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return StudyService.Run(site!, new StudyOptions()).Receivers.Single();
    }

    private static string Demo(params string[] parts) => Path.Combine([TestData.Path(), "..", "..", "demo", .. parts]);
}
