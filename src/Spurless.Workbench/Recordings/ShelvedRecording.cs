using Spurless.Sites.Recordings;

namespace Spurless.Workbench.Recordings;

/// <summary>A recording that is or was listened to.</summary>
public sealed class ShelvedRecording
{
    internal ShelvedRecording(string id, string name, string path) => (Id, Name, Path) = (id, name, path);

    /// <summary>Its name on the shelf, in addresses.</summary>
    public string Id { get; }

    /// <summary>Its name as the user knows it.</summary>
    public string Name { get; }

    /// <summary>Where it lies.</summary>
    public string Path { get; }

    /// <summary>How far the listening is, 0 to 1.</summary>
    public double Fraction { get; internal set; }

    /// <summary>How long it will still take; null where that cannot be told yet.</summary>
    public TimeSpan? Left { get; internal set; }

    /// <summary>Whether it is being listened to.</summary>
    public bool IsWorking { get; internal set; } = true;

    /// <summary>What was heard; null while it is being listened to, and where it could not be used.</summary>
    public ListenAnswer? Answer { get; internal set; }

    /// <summary>What is to be said of it: 'what; what to do instead'.</summary>
    public IReadOnlyList<string> Problems { get; internal set; } = [];

    internal CancellationTokenSource Stopping { get; } = new();
}
