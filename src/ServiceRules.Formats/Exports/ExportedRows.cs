namespace ServiceRules.Formats.Exports;

/// <summary>Which rows of a list; what is left out keeps nothing out.</summary>
public sealed record ExportedRows
{
    /// <summary>The site that judged.</summary>
    public string? Site { get; init; }

    /// <summary>The machine.</summary>
    public string? Machine { get; init; }

    /// <summary>The unit.</summary>
    public string? Unit { get; init; }

    /// <summary>First day of jobs.</summary>
    public DateOnly? From { get; init; }

    /// <summary>Last day of jobs.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>Whether a job, or a unit, may go out.</summary>
    public string? Disposition { get; init; }

    /// <summary>How far jobs are.</summary>
    public string? State { get; init; }

    /// <summary>Whether versions that another one followed stand in it as well.</summary>
    public bool AllVersions { get; init; }

    /// <summary>Each unit as it stood at its last visit.</summary>
    public bool LatestOnly { get; init; }

    /// <summary>The rule of findings.</summary>
    public string? Rule { get; init; }

    /// <summary>The verdict of findings.</summary>
    public string? Verdict { get; init; }

    /// <summary>The severity of findings.</summary>
    public string? Severity { get; init; }

    /// <summary>What findings do to the disposition.</summary>
    public string? Effect { get; init; }
}
