namespace Spurless.Sites.Receivers;

/// <summary>Numbers the sources of error: each reading has its own.</summary>
internal sealed class ReadingSources
{
    private int _last;

    public int Next() => ++_last;
}
