using System.Globalization;
using Spurless.Radio.Terrain;

namespace Spurless.Radio.Tests.Terrain;

/// <summary>
/// Every computed figure of the nine reference results of ITU-R P.1812 (tests/data/itu-p1812), to its printed digits, by its equation
/// number.
/// </summary>
public sealed class ReferenceResultTests
{
    public static TheoryData<string, int> Cases()
    {
        TheoryData<string, int> cases = [];
        foreach (string name in ReferencePaths.Names)
        {
            foreach (int time in ReferencePaths.Times)
            {
                cases.Add(name, time);
            }
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Predict_over_a_reference_path_gives_every_printed_figure(string name, int time)
    {
        IReadOnlyDictionary<string, string> expected = ReferencePaths.Expected(name, time);
        IReadOnlyDictionary<string, double> actual = Figures(ReferencePaths.Profile(name), ReferencePaths.Conditions(name, time));
        List<string> wrong = [];
        foreach ((string key, double value) in actual)
        {
            string printed = expected[key];
            if (!Agrees(printed, value))
            {
                wrong.Add(string.Create(CultureInfo.InvariantCulture, $"{key}: {value:R} where {printed} is printed"));
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));

        // What the set prints and we do not compute are inputs and the ends' clutter codes.
        string[] inputs = ["Ptx", "f", "p", "pL", "sigmaL", "phi_t", "phi_r", "lam_t", "lam_r", "htg", "hrg", "pol", "DN", "N0", "dct",
            "dcr", "R2", "Rn-1", "Ct Tx", "Ct Rx", "phi"];
        Assert.Equal(inputs.Order(), expected.Keys.Where(k => !actual.ContainsKey(k)).Select(static k => k.Split('|')[0]).Order());
    }

    /// <summary>An assertion helper that cannot fail would prove nothing.</summary>
    [Theory]
    [InlineData("120.4908523", 120.49085231, true)]
    [InlineData("120.4908523", 120.4908526, false)]
    [InlineData("8.232622328e-10", 8.2326223282e-10, true)]
    [InlineData("8.232622328e-10", 8.23262235e-10, false)]
    [InlineData("0", 0.3, false)]
    [InlineData("10", 10.00000001, true)]
    public void Agrees_leaves_a_unit_and_a_half_of_the_tenth_digit(string printed, double value, bool expected) =>
        Assert.Equal(expected, Agrees(printed, value));

    /// <summary>The set prints ten significant digits, trailing zeros dropped; a unit and a half of the tenth is left for another order of
    /// summing.</summary>
    private static bool Agrees(string printed, double value)
    {
        double figure = ReferencePaths.Number(printed);
        double unit = figure == 0 ? 1e-9 : Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(figure))) - 9);
        return Math.Abs(value - figure) <= 1.5 * unit;
    }

    private static Dictionary<string, double> Figures(TerrainProfile profile, TerrainConditions conditions)
    {
        TerrainLoss loss = PathSpecificModel.Predict(profile, conditions);
        TerrainSteps steps = loss.Steps!;
        PathAnalysis path = steps.Path;
        return new Dictionary<string, double>
        {
            ["d|"] = profile.LengthM / 1000,
            ["dlt|78"] = path.TransmitterHorizonKm,
            ["dlr|81a"] = path.ReceiverHorizonKm,
            ["th_t|76-78"] = path.TransmitterElevationMrad,
            ["th_r|79-81"] = path.ReceiverElevationMrad,
            ["th|82"] = path.AngularDistanceMrad,
            ["hts|"] = path.TransmitterM,
            ["hrs|"] = path.ReceiverM,
            ["htc|table 5"] = path.TransmitterM,
            ["hrc|table 5"] = path.ReceiverM,
            ["w|table 5"] = steps.Climate.SeaShare,
            ["dtm|section 3.6"] = steps.Climate.LongestLandKm,
            ["dlm|section 3.6"] = steps.Climate.LongestInlandKm,
            ["b0|5"] = steps.Climate.DuctingPercent,
            ["ae|7a"] = loss.MedianRadiusKm,
            ["hst|85"] = path.FittedTransmitterM,
            ["hsr|86"] = path.FittedReceiverM,
            ["hst|90a"] = path.SmoothTransmitterM,
            ["hsr|90b"] = path.SmoothReceiverM,
            ["hstd|89"] = path.DiffractionTransmitterM,
            ["hsrd|89"] = path.DiffractionReceiverM,
            ["htc'|37a"] = path.DiffractionHeightTransmitterM,
            ["hrc'|37b"] = path.DiffractionHeightReceiverM,
            ["hte|92a"] = path.EffectiveTransmitterM,
            ["hre|92b"] = path.EffectiveReceiverM,
            ["hm|93"] = path.RoughnessM,
            ["Fi|40"] = steps.TimeWeight,
            ["Fj|57"] = steps.AngleWeight,
            ["Fk|58"] = steps.DistanceWeight,
            ["Lbfs|8"] = loss.FreeSpaceDb,
            ["Lb0p|10"] = steps.FreeSpaceForTimeDb,
            ["Lb0b|11"] = steps.FreeSpaceForBetaDb,
            ["Lbulla|21"] = steps.Median.ProfileDb,
            ["Lbulls|21"] = steps.Median.SmoothDb,
            ["Ldsph|27"] = steps.Median.SphericalDb,
            ["Ld50|39"] = steps.Median.LossDb,
            ["Ldb|39"] = steps.Beta.LossDb,
            ["Ldp|41"] = loss.DiffractionDb,
            ["Lbd50|42"] = steps.MedianByDiffractionDb,
            ["Lbd|43"] = loss.ByDiffractionDb,
            ["Lminb0p|59"] = steps.LeastOverSeaDb,
            ["Lba|46"] = loss.DuctingDb,
            ["Lminbap|60"] = steps.LeastByDuctingDb,
            ["Lbda|61"] = steps.DiffractionAndDuctingDb,
            ["Lbam|62"] = steps.ModifiedDb,
            ["Lbs|44"] = loss.TroposcatterDb,
            ["Lbc|63"] = steps.MedianOfPlacesDb,
            ["Lb|69"] = loss.BasicLossDb,

            // Field of 1 kW effective radiated power: 199.36 + 20 lg f/GHz - Lb (eq. 70).
            ["Ep|70"] = 199.36 + 20 * Math.Log10(conditions.FrequencyHz / 1e9) - loss.BasicLossDb,
        };
    }
}
