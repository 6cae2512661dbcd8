using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What a task is called in a sentence.</summary>
internal static class TaskWords
{
    public static string Of(ServiceTask task) =>
        task switch
        {
            ServiceTask.DailyCheck => "the daily check",
            ServiceTask.HeightCheck => "the height check",
            ServiceTask.HeightChange => "the height change",
            ServiceTask.TouchUp => "the touch-up",
            ServiceTask.FullService => "the full service",
            ServiceTask.Grind => "grinding",
            ServiceTask.Lap => "lapping",
            ServiceTask.ClearBlockage => "clearing a blockage",
            ServiceTask.Inspect => "the inspection",
            ServiceTask.SeasonalOverhaul => "the seasonal overhaul",
            _ => throw new ArgumentOutOfRangeException(nameof(task), task, "tasks are a closed family"),
        };
}
