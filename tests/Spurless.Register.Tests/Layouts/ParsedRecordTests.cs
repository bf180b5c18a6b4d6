using System.Text;
using CsCheck;
using Spurless.Radio.Paths;
using Spurless.Register.Layouts;
using Spurless.Register.Records;

namespace Spurless.Register.Tests.Layouts;

/// <summary>What becomes of the powers, beams and classes of a record.</summary>
public sealed class ParsedRecordTests
{
    // 1 W is 30 dBm, 0 dBW, -30 dBk (dB over a kilowatt).
    [Theory]
    [InlineData(1, "W", 30.0)]
    [InlineData(1, "w", 30.0)]
    [InlineData(0.05, "kW", 46.98970004336019)]
    [InlineData(100, "mW", 20.0)]
    [InlineData(2, "MW", 93.01029995663981)]
    [InlineData(17, "dBW", 47.0)]
    [InlineData(-30, "dBk", 30.0)]
    [InlineData(43, "dBm", 43.0)]
    [InlineData(0, "W", null)]
    [InlineData(-5, "W", null)]
    [InlineData(0, "dBW", 30.0)]
    [InlineData(5, "volts", null)]
    [InlineData(5, null, null)]
    public void Dbm_of_a_figure_with_its_unit(double value, string? unit, double? dbm)
    {
        double? found = PowerUnits.Dbm(value, unit);
        Assert.Equal(dbm is null, found is null);
        Assert.Equal(dbm ?? 0, found ?? 0, 1e-9);
        Assert.Null(PowerUnits.Dbm(null, unit));
    }

    // The dipole's 2.15 dB between ERP and EIRP (ITU-R V.573, 'effective radiated power').
    [Theory]
    [InlineData(50.0, 40.0, 30.0, 6.0, 2.0, 50.0, RecordNotes.None)]
    [InlineData(null, 40.0, 30.0, 6.0, 2.0, 42.15, RecordNotes.FromErp)]
    [InlineData(null, null, 30.0, 6.0, 2.0, 34.0, RecordNotes.FromPower)]
    [InlineData(null, null, 30.0, null, null, 32.15, RecordNotes.GainAssumed)]
    [InlineData(null, null, null, 6.0, 2.0, null, RecordNotes.None)]
    public void SetPower_takes_the_first_that_is_known(
        double? eirp, double? erp, double? power, double? gain, double? loss, double? radiated, RecordNotes notes)
    {
        ParsedRecord record = new();
        record.Clear("invented");
        record.SetPower(eirp, erp, power, gain, loss);
        Assert.Equal(radiated is null, record.EirpDbm is null);
        Assert.Equal(radiated ?? 0, record.EirpDbm ?? 0, 1e-9);
        Assert.Equal(notes, record.Notes);
    }

    [Theory]
    [InlineData(90.0, 60.0, 90.0, 60.0, RecordNotes.None)]
    [InlineData(360.0, 60.0, 0.0, 60.0, RecordNotes.None)]
    [InlineData(90.0, 360.0, null, null, RecordNotes.None)]
    [InlineData(90.0, null, null, null, RecordNotes.NoBeamwidth)]
    [InlineData(90.0, 0.0, null, null, RecordNotes.NoBeamwidth)]
    [InlineData(0.0, null, null, null, RecordNotes.None)]
    [InlineData(null, 60.0, null, null, RecordNotes.None)]
    [InlineData(400.0, 60.0, null, null, RecordNotes.None)]
    public void SetBeam_keeps_only_a_beam_narrower_than_all_round(
        double? azimuth, double? beamwidth, double? keptAzimuth, double? keptBeamwidth, RecordNotes notes)
    {
        ParsedRecord record = new();
        record.Clear("invented");
        record.SetBeam(azimuth, beamwidth);
        Assert.Equal((keptAzimuth, keptBeamwidth, notes), (record.AzimuthDegrees, record.BeamwidthDegrees, record.Notes));
    }

    // 11K2F3E is 11.2 kHz wide by its own first four characters (ITU Radio Regulations, appendix 1).
    [Theory]
    [InlineData("11K2F3E", 25_000, 11_200L)]
    [InlineData(null, 25_000, 25_000L)]
    [InlineData("not one", 25_000, 25_000L)]
    [InlineData(null, 0, null)]
    public void SetBandwidth_is_the_emissions_else_the_channels(string? emission, long channel, long? width)
    {
        ParsedRecord record = new();
        record.Clear("invented");
        record.Emission = emission;
        record.SetBandwidth(channel);
        Assert.Equal(width, record.BandwidthHz);
    }

    [Fact]
    public void Key_is_the_fields_in_their_order_and_a_cleared_record_is_as_new() =>
        Gen.Select(Gen.String[Gen.Char['a', 'z'], 0, 5].Array[1, 4], Gen.String[Gen.Char['a', 'z'], 0, 5].Array[1, 4]).Sample(
            static (a, b) =>
            {
                ParsedRecord record = new();
                byte[] first = KeyOf(record, a), second = KeyOf(record, b), again = KeyOf(record, a);
                Assert.Equal(first, again);
                // The bar between the fields: 'ab' and 'c' are not 'a' and 'bc'.
                Assert.Equal(a.SequenceEqual(b), first.SequenceEqual(second));
            });

    [Theory]
    [InlineData("MO", true)]
    [InlineData("MO6", true)]
    [InlineData("ML", true)]
    [InlineData("FB", false)]
    [InlineData("FXO", false)]
    [InlineData("", false)]
    public void IsMobile_by_the_class_of_the_station(string code, bool mobile) =>
        Assert.Equal(mobile, StationClasses.IsMobile(Encoding.ASCII.GetBytes(code)));

    [Theory]
    [InlineData("FB", RecordNotes.None)]
    [InlineData("FB2T", RecordNotes.Temporary)]
    [InlineData("FBT", RecordNotes.Temporary)]
    [InlineData("FX1I", RecordNotes.Itinerant)]
    [InlineData("MO2T", RecordNotes.None)]
    public void Notes_of_temporary_and_itinerant_stations(string code, RecordNotes notes) =>
        Assert.Equal(notes, StationClasses.Notes(Encoding.ASCII.GetBytes(code)));

    [Fact]
    public void Every_reason_has_a_word_of_its_own_and_every_note_a_bit()
    {
        RecordNotes[] all = [.. Enum.GetValues<RecordNotes>().Where(static n => n != RecordNotes.None)];
        Assert.All(all, static n => Assert.True(int.IsPow2((int)n)));
        Assert.Equal(RejectReasons.All.Count, RejectReasons.All.Select(static r => r.Word()).Distinct().Count());
    }

    // Every place within the distance is in one of the boxes, wherever on the earth: the geodesic by Spurless.Radio is the judge.
    [Fact]
    public void Round_holds_every_place_within_the_distance() =>
        Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], Gen.Double[0.1, 2_000], Gen.Double[0, 360], Gen.Double[0, 1]).Sample(
            static (latitude, longitude, radiusKm, bearing, share) =>
            {
                GeoPoint centre = GeoPoint.Of(latitude, longitude);
                // Some place about so far away, by the sphere; what the geodesic says of it decides.
                double angle = share * radiusKm / 6371, b = bearing * Math.PI / 180, p = latitude * Math.PI / 180;
                double there = Math.Asin((Math.Sin(p) * Math.Cos(angle)) + (Math.Cos(p) * Math.Sin(angle) * Math.Cos(b)));
                double turn = Math.Atan2(
                    Math.Sin(b) * Math.Sin(angle) * Math.Cos(p), Math.Cos(angle) - (Math.Sin(p) * Math.Sin(there)));
                GeoPoint other = GeoPoint.Of(
                    Math.Clamp(there * 180 / Math.PI, -90, 90), Math.IEEERemainder(longitude + (turn * 180 / Math.PI), 360));
                if (Geodesic.TryBetween(centre, other, out GeodesicLine line, out _) && line.DistanceM <= radiusKm * 1000)
                {
                    Assert.Contains(SearchBox.Round(centre, radiusKm * 1000), box =>
                        box.South <= other.LatitudeDegrees && other.LatitudeDegrees <= box.North
                            && box.West <= other.LongitudeDegrees && other.LongitudeDegrees <= box.East);
                }
            },
            iter: 2000);

    private static byte[] KeyOf(ParsedRecord record, string[] fields)
    {
        record.Clear("invented");
        foreach (string field in fields)
        {
            record.Identify(Encoding.ASCII.GetBytes(field));
        }

        record.CloseKey();
        return [.. record.Key];
    }
}
