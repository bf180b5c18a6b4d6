using Spurless.Browser.Serving;

[assembly: AssemblyFixture(typeof(ServeFixture))]

namespace Spurless.Browser.Serving;

/// <summary>
/// One server over a copy of the demo for all tests that only look; a test that changes files starts a <see cref="ServedFolder"/> of its
/// own.
/// </summary>
public sealed class ServeFixture : IAsyncLifetime
{
    private readonly Lazy<Task<ServedFolder>> _demo = new(ServedFolder.DemoAsync);

    private readonly Lazy<Task<ServedFolder>> _hill = new(static () => ServedFolder.DemoAsync("hill"));

    /// <summary>The demo, to look at.</summary>
    public Task<ServedFolder> DemoAsync() => _demo.Value;

    /// <summary>The same in a folder whose name does not change from run to run: for pictures that are kept.</summary>
    public Task<ServedFolder> HillAsync() => _hill.Value;

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync()
    {
        foreach (Lazy<Task<ServedFolder>> served in (Lazy<Task<ServedFolder>>[])[_demo, _hill])
        {
            if (served.IsValueCreated)
            {
                await (await served.Value).DisposeAsync();
            }
        }
    }
}
