using System.Text;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Tests.Documents;

/// <summary>Files beside a site file that exist only in a test.</summary>
internal sealed class StubFiles(params (string Path, string Content)[] files) : ISiteFiles
{
    private readonly Dictionary<string, string> _files = files.ToDictionary(f => f.Path, f => f.Content, StringComparer.Ordinal);

    /// <summary>The files that the example of the format's description names, with one emitter in its table.</summary>
    public static StubFiles OfExample { get; } = new(
        ("front-end.s2p", ""),
        ("filters/three-tank.circuit.yaml", ""),
        ("filters/duplexer-high.s2p", ""),
        ("filters/trap.s2p", ""),
        ("logs/tuesday.log.csv", ""),
        ("neighbours.csv", "name,frequency,emission,level\nmill gate,171.55 MHz,11K2F3E,-33 dBm\n"));

    public bool Exists(string path) => _files.ContainsKey(path);

    public byte[]? Read(string path) => _files.TryGetValue(path, out string? content) ? Encoding.UTF8.GetBytes(content) : null;

    public string NameOf(string path) => path;
}
