using Spurless.Browser.Serving;

[assembly: AssemblyFixture(typeof(ServeFixture))]

namespace Spurless.Browser.Serving;

/// <summary>One server over a copy of the demo for all tests that only look; a test that changes files starts a <see cref="ServedFolder"/> of its own.</summary>
public sealed class ServeFixture : IAsyncLifetime
{
    private readonly Lazy<Task<ServedFolder>> _demo = new(ServedFolder.DemoAsync);

    /// <summary>The demo, to look at.</summary>
    public Task<ServedFolder> DemoAsync() => _demo.Value;

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync()
    {
        if (_demo.IsValueCreated)
        {
            await (await _demo.Value).DisposeAsync();
        }
    }
}
