using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Terrain;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Tests.Terrain;

public sealed class ProfileReaderTests
{
    [Fact]
    public void Read_takes_columns_in_any_order_and_leaves_out_what_is_not_there()
    {
        TerrainProfile profile = Read("# a comment\nheight_m,distance_km\n100,0\n120,0.5\n90,1.25\n", out _)!;
        Assert.Equal([0, 0.5, 1.25], profile.DistanceKm.ToArray());
        Assert.Equal([100, 120, 90], profile.GroundM.ToArray());
        Assert.All(profile.Zones.ToArray(), static z => Assert.Equal(RadioZone.Inland, z));
        TerrainProfile full = Read("distance_km,height_m,clutter_m,zone\n0,1,30,coastal\n1,2,10,sea\n2,3,30,inland\n", out _)!;
        Assert.Equal([1, 12, 3], full.SurfaceM.ToArray());
        Assert.Equal([RadioZone.Coastal, RadioZone.Sea, RadioZone.Inland], full.Zones.ToArray());
    }

    [Theory]
    [InlineData("distance_km,height_m\n0,1\n", "profile.csv:1:1: the profile has 1 point; give the two ends")]
    [InlineData("distance_km,height_m\n0,1\n1,x\n2,NaN\n3,\n",
        "profile.csv:3:3: 'x' is no number; write a height|profile.csv:4:3: 'NaN' is no number|profile.csv:5:3: the cell is empty")]
    [InlineData("distance_km,height_m\n0,1\n2,1\n1,1\n",
        "profile.csv:4:1: the distance is not a number above the one before; write rising")]
    [InlineData("distance_km,height\n0,1\n",
        "profile.csv:1:13: 'height' is no column of a profile; write 'height_m'|profile.csv:1:1: there is no column 'height_m'")]
    [InlineData("distance_km,height_m,zone\n0,1,land\n1,1,sea\n2,1,inland\n",
        "profile.csv:2:5: 'land' is no zone; write inland, coastal or sea")]
    [InlineData("distance_km,height_m\n0,1\n1,99999\n2,1\n",
        "profile.csv:3:1: the height of the ground is not a number from -500 to 9000; write metres")]
    public void Read_of_a_wrong_profile_says_all_at_once_where_and_what_to_write(string text, string expected)
    {
        Assert.Null(Read(text, out IReadOnlyList<Diagnostic> findings));
        string said = string.Join('\n', findings);
        foreach (string part in expected.Split('|'))
        {
            Assert.Contains(part, said, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Read_never_throws()
    {
        Random random = new(7);
        byte[] good = Encoding.UTF8.GetBytes("distance_km,height_m,clutter_m,zone\n0,1,30,coastal\n1,2,10,sea\n2,3,30,inland\n");
        for (int i = 0; i < 500; i++)
        {
            byte[] bytes = [.. good];
            bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            _ = ProfileReader.Read(bytes, "profile.csv", new DiagnosticBag());
        }
    }

    private static TerrainProfile? Read(string text, out IReadOnlyList<Diagnostic> findings)
    {
        DiagnosticBag bag = new();
        TerrainProfile? profile = ProfileReader.Read(Encoding.UTF8.GetBytes(text), "profile.csv", bag);
        findings = bag.InOrder();
        return profile;
    }
}
