namespace Spurless.Signals.Recognition.Squelch;

/// <summary>
/// Digital squelch: the codes in use, each a 23-bit word (Golay, generator 0xC75) sent over and over, lowest bit first. The 83 usual codes
/// and 21 that some radios add (both from memory); no two of the 104 are one stream, and each one turned over is exactly one other of them.
/// </summary>
internal static class SquelchCode
{
    /// <summary>Bits of a word.</summary>
    public const int Bits = 23;

    private const int Mask = (1 << Bits) - 1;
    private const string Usual =
        "023 025 026 031 032 043 047 051 054 065 071 072 073 074 114 115 116 125 131 132 134 143 152 155 156 162 165 172 174 205 223 226 " +
        "243 244 245 251 261 263 265 271 306 311 315 331 343 346 351 364 365 371 411 412 413 423 431 432 445 464 465 466 503 506 " +
        "516 532 546 565 606 612 624 627 631 632 654 662 664 703 712 723 731 732 734 743 754";

    private const string Further = "036 053 122 145 212 225 246 252 255 266 274 325 332 356 446 452 454 455 462 523 526";

    private static readonly Dictionary<int, string> _streams = Streams();

    /// <summary>The word of a code: remainder in bits 22 to 12, code and the fixed 100 in bits 11 to 0.</summary>
    public static int Word(string code)
    {
        int data = Convert.ToInt32(code, 8) | 0x800;
        int r = data << 11;
        for (int bit = 22; bit >= 11; bit--)
        {
            if ((r >> bit & 1) != 0)
            {
                r ^= 0xC75 << (bit - 11);
            }
        }

        return (r & 0x7FF) << 12 | data;
    }

    /// <summary>The code whose stream shows this word at one of its 23 turns, or null.</summary>
    public static string? Of(int word) => _streams.GetValueOrDefault(word & Mask);

    /// <summary>The code that the same stream turned over reads as, or null.</summary>
    public static string? TurnedOver(string code) => Of(~Word(code));

    private static Dictionary<int, string> Streams()
    {
        Dictionary<int, string> streams = [];
        foreach (string code in $"{Usual} {Further}".Split(' '))
        {
            int word = Word(code);
            for (int turn = 0; turn < Bits; turn++)
            {
                streams[(word >> turn | word << (Bits - turn)) & Mask] = code;
            }
        }

        return streams;
    }
}
