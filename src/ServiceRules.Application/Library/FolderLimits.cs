namespace ServiceRules.Application.Library;

/// <summary>How much of a folder of rules is read. Each is many times what a site needs, and ends a wrong path early.</summary>
internal static class FolderLimits
{
    /// <summary>JSON files. A site with a pack for each of fifty clubs has a few hundred.</summary>
    public const int Files = 2_000;

    /// <summary>Folders within one another: a pack or a site, and its parts.</summary>
    public const int Depth = 4;
}
