using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Application.Beginning;

/// <summary>The steps that a written procedure asks for, in its order, without the times at which they were done.</summary>
internal static class BegunSteps
{
    public static JsonArray Of(JobToBegin job, SiteRegisters site, string person)
    {
        var steps = new JsonArray();
        var procedure = job.Procedure;
        var isOnBench = procedure.Place is WorkPlace.OnBench;
        var isSwitched = procedure.Sources.Any(source => source.Isolator is not null);
        var ownLock =
            site.Locks.FirstOrDefault(one =>
                !one.IsTag && one.Use == RegisteredLock.Lockout && one.Owner?.Text == job.Person
            )?.Id.Text
            ?? BeginRecord.Mark;

        void Add(string word, params (string Name, JsonNode Value)[] more)
        {
            var step = new JsonObject
            {
                ["event"] = word,
                ["at"] = Time(job.At),
                ["by"] = person,
            };
            foreach (var (name, value) in more)
            {
                step[name] = value;
            }

            steps.Add(step);
        }

        void AddIf(bool asked, string word)
        {
            if (asked)
            {
                Add(word);
            }
        }

        if (isSwitched)
        {
            Add("energy_reviewed", ("procedure", procedure.Id.Text));
        }

        if (!isOnBench)
        {
            var controls = procedure.Controls;
            AddIf(controls.ReelDrive, "drive_disengaged");
            AddIf(controls.LoweringUnits, "units_lowered");
            AddIf(controls.ParkingBrake, "parking_brake_set");
        }

        AddIf(isSwitched, "machine_shut_down");
        AddIf(!isOnBench && procedure.Controls.Key, "key_removed");
        AddIf(isSwitched, "seen_at_rest");
        foreach (var source in procedure.Sources.Where(source => source.Isolator is not null))
        {
            Isolate(source, ownLock, Add);
        }

        AddIf(isOnBench, "unit_supported");
        AddIf(procedure.Sources.Any(source => source.Id.Text == "reel_rotation"), "reel_wedged");
        foreach (var source in procedure.Sources.Where(source => source.Stored && isSwitched))
        {
            Add("stored_energy_released", ("source", source.Id.Text));
        }

        if (isSwitched)
        {
            Add("isolation_verified", ("source", "all"));
        }

        Add("gloves_worn");
        Add("work_started");
        Add("work_stopped");
        if (!isSwitched)
        {
            return steps;
        }

        Add("area_inspected");
        Add("guards_refitted");
        Add("people_clear_checked");
        foreach (var source in procedure.Sources.Where(source => source.Isolator is not null))
        {
            if (source.Lockable)
            {
                Add("lock_removed", ("source", source.Id.Text), ("lock", ownLock));
            }

            Add("isolator_operated", Isolator(source, "on"));
        }

        if (!isOnBench)
        {
            Add("machine_started");
            Add("cut_outs_proved");
            Add("handed_back");
        }

        return steps;
    }

    /// <summary>A time of that day that is to be filled in.</summary>
    public static string Time(DateTimeOffset at) =>
        at.ToString(
            $"yyyy-MM-dd'T{BeginRecord.Mark}{BeginRecord.Mark}:{BeginRecord.Mark}{BeginRecord.Mark}:00'zzz",
            CultureInfo.InvariantCulture
        );

    private static void Isolate(EnergySource source, string ownLock, Action<string, (string, JsonNode)[]> add)
    {
        if (!source.Lockable)
        {
            add("plug_removed", [("source", source.Id.Text)]);
            add("plug_control_confirmed", [("source", source.Id.Text)]);
            return;
        }

        add("isolator_operated", Isolator(source, "off"));
        add("lock_applied", [("source", source.Id.Text), ("lock", ownLock)]);
    }

    private static (string, JsonNode)[] Isolator(EnergySource source, string position) =>
        [("source", source.Id.Text), ("isolator", source.Isolator!), ("position", position)];
}
