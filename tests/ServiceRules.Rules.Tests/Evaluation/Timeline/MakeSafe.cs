namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Timelines as a careful technician keeps them, for tests to change.</summary>
internal static class MakeSafe
{
    public const string Seat = """
        08:00 affected_notified_before lead-01 others=op-01
        08:01 energy_reviewed tech-01
        08:02 drive_disengaged tech-01
        08:02 units_lowered tech-01
        08:02 parking_brake_set tech-01
        08:03 machine_shut_down tech-01
        08:03 key_removed tech-01
        08:04 seen_at_rest tech-01

        """;

    public const string Isolation = """
        08:06 isolator_operated tech-01 source=engine_start
        08:07 isolator_operated tech-01 source=hydraulic
        08:08 lock_applied tech-01 source=engine_start lock=L-11 position=off
        08:09 lock_applied tech-01 source=hydraulic lock=L-12 position=closed
        08:12 stored_energy_released tech-01 source=hydraulic
        08:14 stored_energy_released tech-01 source=gravity
        08:17 isolation_verified tech-01 source=all

        """;

    public const string Work = """
        08:20 work_started tech-01
        09:40 work_stopped tech-01

        """;

    public const string After = """
        09:42 guards_refitted tech-01
        09:43 area_inspected tech-01
        09:45 people_clear_checked tech-01
        09:47 lock_removed tech-01 source=engine_start lock=L-11
        09:48 lock_removed tech-01 source=hydraulic lock=L-12
        09:50 removal_notified lead-01 others=op-01
        09:53 machine_started tech-01
        09:55 cut_outs_proved tech-01
        09:58 handed_back tech-01
        """;

    /// <summary>Everything, by one person.</summary>
    public static SafetyCase Complete { get; } = new SafetyCase().With(Seat + Isolation + Work + After);
}
