namespace Spurless.Signals.Recognition.Keying;

/// <summary>
/// Names four-level keying of 4,800 and 2,400 symbols a second by the sync words that the open standards publish (from memory). They are
/// outer symbols only, so a pattern of signs says all.
/// </summary>
internal static class LandMobileSync
{
    /// <summary>Words of pairs of bits, 01 = +3 and 11 = -3.</summary>
    private static readonly (string Standard, ulong Word, double RateBd)[] _words =
    [
        ("ETSI TS 102 361", 0x755FD7DF75F7, 4_800),
        ("ETSI TS 102 361", 0xDFF57D75DF5D, 4_800),
        ("ETSI TS 102 361", 0x7F7D5DD57DFD, 4_800),
        ("ETSI TS 102 361", 0xD5D7F77FD757, 4_800),
        ("TIA-102", 0x5575F5FF77FF, 4_800),
        ("ETSI TS 102 658", 0x57FF5F75D577, 2_400),
    ];

    /// <summary>The standard whose sync words stand in the symbols at least twice, or null.</summary>
    public static string? Name(IReadOnlyList<int> symbols, double rateBd)
    {
        Dictionary<string, HashSet<int>> hits = [];
        foreach ((string standard, ulong word, double rate) in _words)
        {
            if (Math.Abs(rateBd / rate - 1) > 0.01)
            {
                continue;
            }

            for (int at = 0; at + 24 <= symbols.Count; at++)
            {
                int agree = 0;
                for (int k = 0; k < 24; k++)
                {
                    int expected = (word >> (46 - 2 * k) & 3) == 1 ? 3 : -3;
                    agree += symbols[at + k] == expected ? 1 : symbols[at + k] == -expected ? -1 : 0;
                }

                if (Math.Abs(agree) >= 22)
                {
                    // One word is another turned over: a place counts once.
                    hits.TryAdd(standard, []);
                    hits[standard].Add(at);
                }
            }
        }

        return hits.Where(static h => h.Value.Count >= 2).OrderByDescending(static h => h.Value.Count).Select(static h => h.Key)
            .FirstOrDefault();
    }
}
