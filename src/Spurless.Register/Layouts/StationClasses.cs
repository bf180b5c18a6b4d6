namespace Spurless.Register.Layouts;

/// <summary>What a class of station says about where it stands.</summary>
internal static class StationClasses
{
    /// <summary>Whether it is a mobile station: MO or ML, whatever digits and letters follow (codes from memory).</summary>
    public static bool IsMobile(ReadOnlySpan<byte> code) => code.StartsWith("MO"u8) || code.StartsWith("ML"u8);

    /// <summary>Temporary or itinerant stations of the land mobile services: a T or an I behind the code and its digits (from
    /// memory).</summary>
    public static Records.RecordNotes Notes(ReadOnlySpan<byte> code)
    {
        if (code.Length < 3 || !(code.StartsWith("FB"u8) || code.StartsWith("FX"u8)))
        {
            return Records.RecordNotes.None;
        }

        ReadOnlySpan<byte> behind = code[2..].TrimStart("0123456789"u8);
        return (behind.Contains((byte)'T') ? Records.RecordNotes.Temporary : 0) | (behind.Contains((byte)'I')
            ? Records.RecordNotes.Itinerant : 0);
    }
}
