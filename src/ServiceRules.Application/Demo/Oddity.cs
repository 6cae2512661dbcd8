namespace ServiceRules.Application.Demo;

/// <summary>What the shop says of a job that only looks odd.</summary>
internal static class Oddity
{
    public static string Told(OddityKind kind) =>
        kind switch
        {
            OddityKind.HonestLateEntry => "one step entered in the evening and marked so: weaker, and honest",
            OddityKind.DeviceOffline => "the tablet had no network on the outfield, and says so",
            OddityKind.AcrossMidnight => "begun before midnight and ended after it",
            OddityKind.ClocksPutBack =>
                "the clocks were put back during the job: 01:59 was followed by 01:00",
            OddityKind.InchesBesideMillimetres =>
                "read in inches, the machine beside it the same morning in millimetres",
            OddityKind.LetOutBySecondPerson =>
                "too near its limit to be proven in, and let out by lead-01 with a reason",
            OddityKind.TwelveOnTheBench => "twelve units of four machines on one bench",
            OddityKind.RunAndRelocked =>
                "run in the middle of the job to hear the contact, and everything locked again before hands went in",
            OddityKind.ShiftHandedOver =>
                "begun by one shift and ended by the next, lock upon lock and briefed",
            OddityKind.LappedWithHandsOut =>
                "lapped with the reel turning, hands out and a long brush, and everything locked again before it was set",
            OddityKind.GroundUnderItsOwnLock =>
                "ground on the grinder, its own lock off for the run with its guard closed, and on again",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no such oddity"),
        };
}
