using ServiceRules.Storage.Inbox;

namespace ServiceRules.Host.Setup;

/// <summary>Where the inbox of the service is.</summary>
internal static class InboxPlace
{
    /// <exception cref="StartRefusedException">It cannot be used.</exception>
    public static InboxFolder? Open(ServiceSettings settings)
    {
        if (settings.Inbox is not { Folder: var place })
        {
            return null;
        }

        if (
            settings.Inbox.Site is { } site
            && settings.Sites.Prepend(settings.Rules).All(rules => rules.Site?.Name != site)
        )
        {
            throw new StartRefusedException(
                $"--inbox-site: no site that is served is called `{site}`; accepted: the name in one of the site.json files"
            );
        }

        if (IsWithin(place, settings.DataFolder) || IsWithin(settings.DataFolder, place))
        {
            throw new StartRefusedException(
                $"--inbox: `{place}` and the data folder `{settings.DataFolder}` lie in one another, and others come to the inbox; "
                    + "accepted: a folder apart"
            );
        }

        try
        {
            return InboxFolder.Open(place);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new StartRefusedException($"the inbox `{place}` cannot be used: {failure.Message}");
        }
    }

    private static bool IsWithin(string place, string folder)
    {
        var path = Path.GetRelativePath(folder, place);
        return !Path.IsPathRooted(path) && path.Split(Path.DirectorySeparatorChar)[0] != "..";
    }
}
