namespace Spurless.Register.Reading;

/// <summary>What is read at most, so that a zip file made to fill the disk or the memory does neither.</summary>
public sealed record ImportLimits
{
    /// <summary>Most files in a zip file.</summary>
    public int MostEntries { get; init; } = 10_000;

    /// <summary>A file in a zip file may always unpack to so many bytes: 64 MiB.</summary>
    public long FreeBytes { get; init; } = 1L << 26;

    /// <summary>Beyond that to so many times its packed size. Tables of licences pack to a tenth or so.</summary>
    public int MostRatio { get; init; } = 200;

    /// <summary>And to no more than this: 64 GiB.</summary>
    public long MostBytes { get; init; } = 1L << 36;

    /// <summary>Pages of 4 KiB that the database may have; null for as many as the disk holds. Beyond it is as on a full disk.</summary>
    internal int? MostPages { get; init; }

    internal long MostUnpacked(long packed) => Math.Min(MostBytes, Math.Max(FreeBytes, packed * MostRatio));
}
