namespace ServiceRules.Formats.Tests.Documents;

/// <summary>A record that uses every member of the format at least once. Its figures mean nothing.</summary>
internal static class SampleRecord
{
    public const string Text = """
        {
          "$schema": "../schema/service-record.schema.json",
          "format": "service-record/1",
          "id": "J-2026-0412",
          "date": "2026-04-13",
          "place": "on-bench",
          "setting": "in-use", "handsInBladeZone": false, "electricalWork": true, "electricalRecord": "book E, page 12",
          "temperature": "24 degC",
          "machine": { "id": "M-02", "area": "golf-greens", "hours": "412.5 h",
            "tested": { "groundSpeed": "3.8 mph", "reelSpeed": "2200 rev/min", "effectiveHeight": "3.6 mm", "wavePitch": "1 3/4 in" }
          },
          "tasks": ["full-service", "height-check"],
          "complaint": "tears on the left,\nworse when wet",
          "requested": [{ "quantity": "height-of-cut", "value": "4.0 mm", "by": "lead-01", "card": "JC-7", "order": "S-2026-season" }],
          "people": [
            { "id": "tech-01", "role": "performs" },
            { "id": "lead-01", "role": "leads" }
          ],
          "instruments": [
            {
              "id": "HG-01", "kind": "height-gauge", "resolution": "0.01 mm", "repeatability": "0.004 mm",
              "calibration": {
                "date": "2026-01-10", "due": "2027-01-10", "expandedUncertainty": "0.010 mm", "coverageFactor": 2
              },
              "zeroCheck": { "error": "-0.01 mm", "settingPiece": "SP-01" },
              "zeroCheckAfter": { "error": "0.00 mm", "settingPiece": "SP-01" }
            },
            {
              "id": "FG-01", "kind": "feeler-gauge", "tolerance": "0.0001 in",
              "inspection": { "date": "2026-03-02", "result": "sound" }
            },
            {
              "id": "CL-01", "kind": "calliper", "resolution": "0.01 mm",
              "repeatabilityStudies": [
                { "deviation": "0.006 mm", "degreesOfFreedom": 4 },
                { "deviation": "0.004 mm", "degreesOfFreedom": 9 }
              ],
              "calibration": {
                "date": "2026-01-10", "due": "2027-01-10", "expandedUncertainty": "0.02 mm", "level": "95 %",
                "degreesOfFreedom": 12
              }
            }
          ],
          "timeline": [
            { "event": "machine_shut_down", "at": "2026-04-13T08:04:00+01:00", "by": "tech-01" },
            {
              "event": "lock_applied", "at": "2026-04-13T08:05:00+01:00", "by": "tech-01", "source": "engine_start",
              "lock": "L-11", "position": "off", "isolator": "battery disconnect",
              "eventId": "e-2", "device": "tablet-1", "sequence": 2, "receivedAt": "2026-04-13T07:05:03Z"
            },
            {
              "event": "isolation_verified", "at": "2026-04-13T08:06:00", "by": "tech-01", "source": "all",
              "method": "start attempt", "pressure": "0 bar", "others": ["lead-01"]
            },
            {
              "event": "work_started", "at": "2026-04-13T08:10:00+01:00", "by": "tech-01", "mark": "late-entry",
              "reason": "hands full"
            },
            { "event": "lock_removed", "at": "2026-04-13T09:10:00+01:00", "by": "tech-01", "source": "group_box", "lock": "L-11",
              "exception": "owner away" },
            {
              "event": "exemption_claimed", "at": "2026-04-13T08:11:00+01:00", "by": "tech-01",
              "claim": {
                "kind": "undocumented-procedure", "routine": true, "repetitive": false, "integral": true,
                "facts": {
                  "noStoredEnergy": true, "oneSource": true, "fullyDeenergised": true, "lockedForWork": true,
                  "oneLock": true, "exclusiveControl": true, "noHazardToOthers": true, "noPastAccident": false
                },
                "decidedBy": "lead-01", "ground": "one plug"
              }
            },
            {
              "event": "energised_task_performed", "at": "2026-04-13T08:12:00+01:00", "by": "tech-01", "task": "lap",
              "measures": ["long-handled-brush", "hair-and-clothing-secured"]
            },
            { "event": "primary_assigned", "at": "2026-04-13T08:12:00+01:00", "by": "tech-01", "count": 2 },
            { "event": "coordinator_assigned", "at": "2026-04-13T08:12:00+01:00", "by": "tech-01", "crews": ["shop", "ext"] },
            {
              "event": "tag_applied", "at": "2026-04-13T08:13:00+01:00", "by": "tech-01", "source": "hydraulic", "lock": "T-1",
              "extraMeasure": "valve handle taken off", "atLockPoint": true
            },
            { "event": "energy_reviewed", "at": "2026-04-13T08:14:00+01:00", "by": "tech-01", "procedure": "P-1" },
            { "event": "source_added", "at": "2026-04-13T08:15:00+01:00", "by": "tech-01", "source": "charger" }
          ],
          "units": [
            {
              "id": "U-02-1", "reel": "R-17", "bedknife": "B-40", "position": 1, "sheet": "reel-125-9-510",
              "attachments": ["groomer", "roller-brush", "shield"], "tasks": ["full-service"],
              "entries": [
                { "read": "clearance", "station": "left", "phase": "found", "feeler": "0.002 in", "passes": true, "with": "FG-01" },
                { "read": "clearance", "station": "middle", "feeler": ["0.001 in", "0.0015 in"], "passes": false, "with": "FG-01" },
                { "read": "clearance", "contact": "light", "phase": "between" },
                { "read": "clearance", "station": "51 mm", "blade": 3, "paper": "cuts" },
                { "turn": "clearance", "side": "left", "direction": "close", "steps": 2 },
                { "turn": "height", "side": "both", "direction": "raise", "distance": "0.20 mm" },
                { "turn": "front-roller", "side": "right", "amount": "not-stated" },
                {
                  "read": "height-of-cut", "station": "right", "phase": "left", "value": "4.02 mm", "with": "HG-01",
                  "at": "2026-04-13T08:40:00+01:00", "by": "tech-01"
                },
                { "read": "front-roller", "station": "1 1/16 in", "value": "-0.03 mm" },
                { "read": "bearing-play", "condition": "sound" },
                { "read": "attitude", "angle": "6.5 deg" },
                { "grind": "reel-spin", "before": "124.8 mm", "after": "124.6 mm", "by": "tech-01" },
                { "fit": "bedknife", "identity": "B-41", "note": "from stock" }
              ]
            },
            { "id": "U-02-2", "position": 2, "sheet": "reel-125-9-510" }
          ],
          "photos": [
            {
              "sha256": "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef",
              "shows": "left end", "unit": "U-02-1"
            }
          ],
          "signOff": { "by": "tech-01", "at": "2026-04-13T09:20:00+01:00" },
          "releases": [
            {
              "by": "lead-01", "at": "2026-04-13T09:30:00+01:00", "rule": "clearance-within-limits",
              "unit": "U-02-1", "reason": "looked at it myself"
            }
          ],
          "followUp": { "by": "lead-01", "at": "2026-04-14T12:00:00+01:00", "result": "sound", "note": "clean" }
        }
        """;
}
