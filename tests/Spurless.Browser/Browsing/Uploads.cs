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

    // The framework numbers the files that it hears of. A field that was drawn anew between listening and giving hears of none, and is
    // given them once more, as a person would.
    private static async Task HeardAsync(ILocator field, Func<Task> give)
    {
        for (int attempt = 1; ; attempt++)
        {
            IElementHandle element = await field.ElementHandleAsync();
            await field.Page.WaitForFunctionAsync("e => e._blazorInputFileNextFileId !== undefined && !e.disabled", element);
            int before = await element.EvaluateAsync<int>("e => e._blazorInputFileNextFileId");
            await give();
            try
            {
                await field.Page.WaitForFunctionAsync(
                    "([e, n]) => e._blazorInputFileNextFileId > n", new object[] { element, before },
                    new PageWaitForFunctionOptions { Timeout = 15_000 });
                return;
            }
            catch (TimeoutException) when (attempt < 3)
            {
                // once more
            }
        }
    }
}
