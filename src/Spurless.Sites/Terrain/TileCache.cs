using Spurless.Radio.Terrain.Elevation;

namespace Spurless.Sites.Terrain;

/// <summary>
/// Tiles that were read lately, for the whole process: a page reads its site anew at every change, and a tile of 26 MB only once.
/// What was not asked for longest goes first.
/// </summary>
internal static class TileCache
{
    /// <summary>Samples kept at most: eight tiles of one arc second.</summary>
    private const long MostSamples = 8L * 3601 * 3601;

    private static readonly Lock _lock = new();
    private static readonly LinkedList<(string Key, ElevationTile Tile)> _recent = new();

    /// <summary>The tile of a file.</summary>
    /// <param name="file">The file.</param>
    /// <param name="problem">What is wrong and what to do, where there is none.</param>
    public static ElevationTile? Get(ElevationFile file, out string problem)
    {
        problem = "";
        lock (_lock)
        {
            for (LinkedListNode<(string Key, ElevationTile Tile)>? node = _recent.First; node is not null; node = node.Next)
            {
                if (node.Value.Key == file.Key)
                {
                    _recent.Remove(node);
                    _recent.AddFirst(node);
                    return node.Value.Tile;
                }
            }

            // Read under the lock: two paths that need one tile wait for one reading instead of doing it twice.
            if (file.Read(out problem) is not { } tile)
            {
                return null;
            }

            _recent.AddFirst((file.Key, tile));
            long samples = 0;
            LinkedListNode<(string Key, ElevationTile Tile)>? last = _recent.First;
            while (last is not null)
            {
                samples += last.Value.Tile.IsSea ? 0 : (long)last.Value.Tile.Grid.Rows * last.Value.Tile.Grid.Columns;
                LinkedListNode<(string Key, ElevationTile Tile)>? next = last.Next;
                if (samples > MostSamples && last != _recent.First)
                {
                    _recent.Remove(last);
                }

                last = next;
            }

            return tile;
        }
    }
}
