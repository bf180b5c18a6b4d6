using System.Numerics;
using System.Text;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Tests.Common;

namespace Spurless.Circuits.Tests.Touchstone;

/// <summary>Reading for tests.</summary>
internal static class TouchstoneFiles
{
    public static TouchstoneData Good(string relative)
    {
        TouchstoneData? data = Read(relative, out DiagnosticBag bag);
        Assert.True(data is not null, string.Join('\n', bag.InOrder()));
        return data;
    }

    public static TouchstoneData? Read(string relative, out DiagnosticBag bag)
    {
        bag = new DiagnosticBag();
        using FileStream file = File.OpenRead(TestData.Path("touchstone/" + relative));
        return TouchstoneReader.Read(file, Path.GetFileName(relative), bag);
    }

    public static TouchstoneData? ReadText(string text, string name, out DiagnosticBag bag)
    {
        bag = new DiagnosticBag();
        using MemoryStream stream = new(Encoding.Latin1.GetBytes(text));
        return TouchstoneReader.Read(stream, name, bag);
    }

    public static void Near(Complex expected, Complex actual, double tolerance) =>
        Assert.True((expected - actual).Magnitude <= tolerance, $"expected {expected}, got {actual}");

    public static Complex Polar(double magnitude, double degrees) => Complex.FromPolarCoordinates(magnitude, degrees * Math.PI / 180);
}
