using Spurless.Drawing.Maps;
using Spurless.Register.Records;

namespace Spurless.Reports.Registers;

/// <summary>The service of a licensed transmitter, as far as its record tells: for the shape of its mark only.</summary>
public static class ServiceOfRecord
{
    /// <summary>The service of a record.</summary>
    public static AroundService Of(RegisterRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        string kind = record.Emission is { Length: >= 7 } emission ? emission[4..7] : "";
        return record switch
        {
            { BandwidthHz: > 100_000 } => AroundService.Broadcast,
            { FrequencyHz: >= 108_000_000 and < 137_000_000 } => AroundService.Aviation,
            { StationClass: { } code } when code.StartsWith("FB2", StringComparison.Ordinal) => AroundService.Repeater,
            _ when kind is "F1D" or "F1B" or "G1D" => AroundService.Paging,
            _ when kind is "D7W" or "FXW" or "D1W" or "G7W" => AroundService.Trunked,
            _ => AroundService.LandMobile,
        };
    }

    /// <summary>It in a word.</summary>
    public static string Word(AroundService service) => service switch
    {
        AroundService.Broadcast => "broadcast",
        AroundService.Aviation => "aviation",
        AroundService.Repeater => "repeater",
        AroundService.Paging => "paging, data",
        AroundService.Trunked => "trunked",
        _ => "land mobile",
    };
}
