using Microsoft.Playwright;

namespace Spurless.Browser.Browsing;

/// <summary>Files given to a page.</summary>
internal static class Uploads
{
    /// <summary>
    /// Gives files to a field once it listens: the framework begins to listen in a call of its own after the page is live, and a slow
    /// machine lies between the two. A person's hand does not.
    /// </summary>
    public static Task GiveAsync(this ILocator field, params FilePayload[] files) =>
        HeardAsync(field, () => field.SetInputFilesAsync(files));

    /// <summary>The same with files of the disk.</summary>
    public static Task GiveAsync(this ILocator field, params string[] files) =>
        HeardAsync(field, () => field.SetInputFilesAsync(files));

    // Files given twice are refused the second time, as they are there by then; so whether they were heard is not a matter of time here:
    // the page itself notes whether the very field that was given them was one that listens. Only where it was not (drawn anew between the
    // look and the giving) are they given once more, as a person would.
    private static async Task HeardAsync(ILocator field, Func<Task> give)
    {
        for (int attempt = 1; ; attempt++)
        {
            IElementHandle element = await field.ElementHandleAsync();
            await field.Page.WaitForFunctionAsync(
                "e => !e.isConnected || (e._blazorInputFileNextFileId !== undefined && !e.disabled)", element);
            await field.Page.EvaluateAsync("""
                () => {
                  window.heard = false;
                  const note = e => window.heard = e.target._blazorInputFileNextFileId !== undefined;
                  document.addEventListener('input', note, { capture: true, once: true });
                }
                """);
            await give();
            if (await field.Page.EvaluateAsync<bool>("() => window.heard"))
            {
                return;
            }

            Assert.True(attempt < 5, "the field never listened");
        }
    }
}
