using System.Diagnostics.CodeAnalysis;
using Quartz;
using ServiceRules.Application.Working;

namespace ServiceRules.Storage.Working;

/// <summary>Does one work, and sees to it that it is done again where it is not done.</summary>
internal sealed class QueuedWork(IReadOnlyList<IWork> kinds) : IJob
{
    /// <summary>After how long a work is done again that broke off.</summary>
    private static readonly TimeSpan AfterDefect = TimeSpan.FromMinutes(1);

    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "Whatever one attempt ends with, the work is not lost."
    )]
    public async ValueTask Execute(
        IJobExecutionContext context,
        CancellationToken cancellationToken = default
    )
    {
        var key = context.JobDetail.Key;
        // A kind that this instance does not know waits for one that does.
        var kind = kinds.FirstOrDefault(one => one.Kind == key.Group);
        TimeSpan? again;
        try
        {
            again = kind is null
                ? AfterDefect
                : await kind.DoAsync(key.Name, cancellationToken).ConfigureAwait(false);
        }
        catch (Exception) when (!cancellationToken.IsCancellationRequested)
        {
            again = AfterDefect;
        }

        if (again is { } pause)
        {
            var trigger = TriggerBuilder
                .Create()
                .ForJob(key)
                .WithIdentity($"{key.Name} {context.FireInstanceId}", key.Group)
                // What is new goes first: many that fail must not keep it waiting.
                .WithPriority(QuartzWorkQueue.LaterPriority)
                .WithExecutionGroup(QuartzWorkQueue.GroupOf(kind, key.Name))
                .StartAt(context.FireTimeUtc + context.JobRunTime + pause)
                .Build();
            _ = await context
                .Scheduler.ScheduleJob(trigger, cancellationToken: CancellationToken.None)
                .ConfigureAwait(false);
        }
    }
}
