using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>A job on the shop's plan, before it is done.</summary>
internal sealed record PlannedJob
{
    public required DateOnly Day { get; init; }

    /// <summary>Not before this time of the day.</summary>
    public required TimeOnly NotBefore { get; init; }

    public required FleetMachine Machine { get; init; }

    public required ServiceTask Task { get; init; }

    public WorkPlace Place { get; init; } = WorkPlace.OnMachine;

    /// <summary>On the grinder, and under its name.</summary>
    public bool IsAtGrinder { get; init; }

    /// <summary>Only this unit; absent: all of them.</summary>
    public int? OnlyPosition { get; init; }

    /// <summary>Whose units come to the bench beside the machine's own.</summary>
    public IReadOnlyList<FleetMachine> Others { get; init; } = [];

    /// <summary>Who must do it; absent: whoever is free.</summary>
    public string? Technician { get; init; }

    /// <summary>How many work on it.</summary>
    public int Crew { get; init; } = 1;

    /// <summary>A height asked for on the job card instead of the order's, millimetres.</summary>
    public decimal? Requested { get; init; }

    /// <summary>Checked again after first use.</summary>
    public bool IsFollowedUp { get; init; }

    public string? Complaint { get; init; }

    /// <summary>What to put wrong.</summary>
    public SeededFaultKind? Fault { get; init; }

    /// <summary>On which unit of the machine.</summary>
    public int FaultyPosition { get; init; } = 1;

    /// <summary>Puts right the safety defect that the job before on this machine left open.</summary>
    public bool ClosesDefect { get; init; }

    /// <summary>What is unusual and must be left alone.</summary>
    public OddityKind? Oddity { get; init; }

    /// <summary>From the season's plan, not in answer to something found.</summary>
    public bool IsRoutine { get; init; } = true;

    /// <summary>Entries carry times: somebody had a hand free for the tablet.</summary>
    public bool IsTimed =>
        Task
            is ServiceTask.FullService
                or ServiceTask.Grind
                or ServiceTask.Lap
                or ServiceTask.TouchUp
                or ServiceTask.HeightChange;
}
