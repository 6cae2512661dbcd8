namespace ServiceRules.Application.Library;

/// <summary>How much of a folder of rules is read. Each is many times what a site needs, and ends a wrong path early.</summary>
internal static class FolderLimits
{
    /// <summary>JSON files. A site with a pack for each of fifty clubs has a few hundred.</summary>
    public const int Files = 2_000;

    /// <summary>Files and folders of any kind looked at: a wrong path (a home, a whole disk) ends early.</summary>
    public const int Entries = 20_000;

    /// <summary>Bytes of all files together. The rules shipped take one mebibyte; a site of many clubs perhaps ten.</summary>
    public const long Bytes = 64L * 1024 * 1024;

    /// <summary>Rules of all packs together: every rule is held against every limit sheet.</summary>
    public const int Rules = 2_000;

    /// <summary>Limit sheets: kinds of unit, not units. The largest fleets have a few dozen.</summary>
    public const int Sheets = 500;

    /// <summary>Folders within one another: a pack or a site, and its parts.</summary>
    public const int Depth = 4;
}
