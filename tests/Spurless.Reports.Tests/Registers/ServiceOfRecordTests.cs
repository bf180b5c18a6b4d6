using CsCheck;
using Spurless.Drawing.Maps;
using Spurless.Radio.Paths;
using Spurless.Register.Records;
using Spurless.Reports.Registers;

namespace Spurless.Reports.Tests.Registers;

/// <summary>The shape of a transmitter's mark by its record: emission designators as ITU-R SM.1138 (RR Appendix 1) has them.</summary>
public sealed class ServiceOfRecordTests
{
    [Theory]
    [InlineData("180KF8E", 94_200_000, 180_000, null, AroundService.Broadcast)]
    [InlineData("6K00A3E", 121_850_000, 6_000, null, AroundService.Aviation)]
    [InlineData("11K2F3E", 153_350_000, 11_200, "FB2", AroundService.Repeater)]
    [InlineData("16K0F1D", 466_100_000, 16_000, null, AroundService.Paging)]
    [InlineData("25K0D7W", 391_700_000, 25_000, null, AroundService.Trunked)]
    [InlineData("11K2F3E", 153_350_000, 11_200, "FB", AroundService.LandMobile)]
    [InlineData(null, 153_350_000, null, null, AroundService.LandMobile)]
    [InlineData("F3E", 153_350_000, null, null, AroundService.LandMobile)]
    public void Of_a_record_is_by_its_width_band_class_and_emission(
        string? emission, long hertz, int? width, string? station, AroundService service) =>
        Assert.Equal(service, ServiceOfRecord.Of(Record(emission, hertz) with { BandwidthHz = width, StationClass = station }));

    [Fact]
    public void Of_any_emission_never_fails_and_a_wide_one_is_broadcast_wherever_it_stands() => Gen.Select(
        Gen.String[Gen.Char['0', 'Z'], 0, 12], Gen.Long[30_000_000, 500_000_000]).Sample(static (emission, hertz) =>
        {
            Assert.True(Enum.IsDefined(ServiceOfRecord.Of(Record(emission, hertz))));
            Assert.Equal(AroundService.Broadcast, ServiceOfRecord.Of(Record(emission, hertz) with { BandwidthHz = 150_000 }));
        });

    [Fact]
    public void Words_of_services_are_all_different() => Assert.Equal(
        Enum.GetValues<AroundService>().Length, Enum.GetValues<AroundService>().Select(ServiceOfRecord.Word).Distinct().Count());

    private static RegisterRecord Record(string? emission, long hertz) => new()
    {
        Register = "invented extract",
        Licence = "INV-1",
        Transmits = true,
        FrequencyHz = hertz,
        Emission = emission,
        Place = GeoPoint.Of(40, -35),
    };
}
