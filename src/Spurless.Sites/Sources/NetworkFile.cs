using Spurless.Circuits.TwoPorts;

namespace Spurless.Sites.Sources;

/// <summary>A circuit file with all values known or a measured one- or two-port, ready to be computed.</summary>
/// <param name="Name">The circuit's name, or the file's.</param>
/// <param name="Network">The network itself.</param>
/// <param name="Circuit">The circuit file; null for a measured network.</param>
/// <param name="Source">The file.</param>
public sealed record NetworkFile(string Name, ITwoPort Network, CircuitFile? Circuit, SourceFile Source);
