using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>One job of the demo, with what is wrong in it and what only looks odd.</summary>
public sealed record DemoJob
{
    public required ServiceRecord Record { get; init; }

    /// <summary>What was put wrong on purpose; absent: the job is sound.</summary>
    public SeededFault? Fault { get; init; }

    /// <summary>What looks odd here and must be left alone, in the words of the shop; absent: nothing does.</summary>
    public string? LeaveAlone { get; init; }

    /// <summary>A job that somebody would want to see on paper.</summary>
    public bool IsNotable => Fault is not null || LeaveAlone is not null;
}
