using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Sites.Terrain;

namespace Spurless.Fuzz.Readers;

/// <summary>Profiles of the ground along a path.</summary>
internal sealed class ProfileReading : IFuzzedReader
{
    public string Name => "path profile";

    public Family Family => Family.Table;

    public IEnumerable<byte[]> Examples =>
    [
        Reading.Example("demo", "hill.profile.csv"),
        "distance_km,height_m,clutter_m\n0,10,0\n0.5,12.5,8\n1,9,0\n"u8.ToArray(),
        "distance_km;height_m;zone\n0;10;land\n0,5;0;sea\n1;9;coast\n"u8.ToArray(),
    ];

    public void Read(byte[] input)
    {
        _ = ProfileReader.IsProfile(input);
        DiagnosticBag findings = new();
        Reading.Hold(findings, ProfileReader.Read(input, "x.csv", findings) is not null);
    }
}
