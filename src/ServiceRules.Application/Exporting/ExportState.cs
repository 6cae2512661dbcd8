namespace ServiceRules.Application.Exporting;

/// <summary>How far an export is. The numbers are kept and stay.</summary>
public enum ExportState
{
    /// <summary>Nobody is at it yet.</summary>
    Queued = 0,

    /// <summary>It is being written.</summary>
    Running = 1,

    /// <summary>The file is whole.</summary>
    Done = 2,

    /// <summary>There will be no file.</summary>
    Failed = 3,
}
