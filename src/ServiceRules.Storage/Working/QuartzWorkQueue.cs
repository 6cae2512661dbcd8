using Quartz;
using ServiceRules.Application.Working;

namespace ServiceRules.Storage.Working;

/// <summary>
/// Work on the job store of Quartz.NET: each work a job with its key made of what is to be done, taken by one instance, and
/// run again where its instance died.
/// </summary>
internal sealed class QuartzWorkQueue(WorkPlace place) : IWorkQueue
{
    public const int LaterPriority = 1;

    private const int FirstPriority = 5;
    private const int Together = 8;

    // A recipient that does not answer holds each of its places for as long as an attempt may take.
    private const int TogetherOfOne = 2;
    private const string SharedPrefix = "shared/";
    private const string Name = "servicerules";

    private IScheduler? scheduler;
    private IReadOnlyList<IWork> known = [];

    public async Task StartAsync(IReadOnlyList<IWork> kinds, CancellationToken stop)
    {
        known = kinds;
        scheduler = await QuartzSchedulerBuilder
            .Create(queue =>
            {
                queue.ConfigureScheduler(options =>
                {
                    options.InstanceName = Name;
                    options.GenerateInstanceId = place.IsShared;
                });
                queue.UseDefaultThreadPool(Together);
                queue.UseExecutionLimits(limits => limits.ForGroupsWithPrefix(SharedPrefix, TogetherOfOne));
                queue.AddJobType(_ => new QueuedWork(kinds));
                queue.UsePersistentStore(Keep);
            })
            .BuildScheduler(stop)
            .ConfigureAwait(false);
        await scheduler.Start(stop).ConfigureAwait(false);
    }

    public async Task AddAsync(string kind, string what, CancellationToken stop)
    {
        var job = JobBuilder.Create<QueuedWork>().WithIdentity(what, kind).RequestRecovery().Build();
        var trigger = TriggerBuilder
            .Create()
            .WithIdentity(what, kind)
            .WithPriority(FirstPriority)
            .WithExecutionGroup(GroupOf(known.FirstOrDefault(one => one.Kind == kind), what))
            .StartNow()
            .Build();
        try
        {
            _ = await scheduler!.ScheduleJob(job, trigger, cancellationToken: stop).ConfigureAwait(false);
        }
        catch (ObjectAlreadyExistsException)
        {
            // Somebody asked for it before.
        }
    }

    /// <summary>What the queue counts its places under.</summary>
    public static string? GroupOf(IWork? kind, string what) =>
        kind?.SharesWith(what) is { } shared ? $"{SharedPrefix}{kind.Kind}/{shared}" : null;

    public async ValueTask DisposeAsync()
    {
        if (scheduler is { } running)
        {
            scheduler = null;
            await running.Shutdown(true, CancellationToken.None).ConfigureAwait(false);
        }
    }

    private void Keep(IPersistentStoreBuilder store)
    {
        store.ConfigureStore(options => options.StoreJobDataAsStrings = true);
        if (place.IsShared)
        {
            store.UsePostgres(place.Factory, place.Address);
            store.UseClustering(_ => { });
        }
        else
        {
            store.UseSqlite(place.Factory, place.Address);
        }
    }
}
