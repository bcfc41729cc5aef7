#!/usr/bin/env bash
# scripts/regress_array.sbatch under Slurm's own daemons (Debian packages munge, slurmctld, slurmd,
# slurm-client): a suite as an array job of five tasks on one node with two processors, its shards
# merged, compared byte by byte with one run. Everything lives in a folder of its own: key, sockets,
# ports, state; nothing of the machine's configuration is touched.
#
#   array_job_test.sh PROGRAM SOURCE_FOLDER
set -euo pipefail
program=$1
source_folder=$2

folder=$(mktemp -d)
chmod 755 "$folder"  # munge wants its socket to be reached by everybody
daemons=()
finish() {
    local code=$?
    for daemon in "${daemons[@]}"; do
        kill "$daemon" 2>/dev/null || true
    done
    wait
    if [ "$code" -ne 0 ]; then
        tail -n 30 "$folder"/*.log >&2 || true
    fi
    rm -rf "$folder"
}
trap finish EXIT

# Ports that nobody has at this moment.
read -r controller_port node_port < <(node -e '
    const net = require("net");
    const servers = [net.createServer(), net.createServer()];
    let open = 0;
    servers.forEach(s => s.listen(0, "127.0.0.1", () => {
        if (++open === 2) {
            console.log(servers.map(s => s.address().port).join(" "));
            servers.forEach(s => s.close());
        }
    }));')

node=$(hostname -s)
user=$(id -un)
mkdir "$folder/state" "$folder/spool" "$folder/shards"
cat >"$folder/slurm.conf" <<END
ClusterName=bench
SlurmctldHost=$node(127.0.0.1)
SlurmUser=$user
SlurmdUser=$user
SlurmctldPort=$controller_port
SlurmdPort=$node_port
AuthType=auth/munge
AuthInfo=socket=$folder/munge.socket
CredType=cred/munge
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
MpiDefault=none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SlurmdParameters=config_overrides
SchedulerParameters=sched_interval=1,batch_sched_delay=0
ReturnToService=2
StateSaveLocation=$folder/state
SlurmdSpoolDir=$folder/spool
SlurmctldPidFile=$folder/slurmctld.pid
SlurmdPidFile=$folder/slurmd.pid
SlurmctldLogFile=$folder/slurmctld.log
SlurmdLogFile=$folder/slurmd.log
NodeName=$node NodeAddr=127.0.0.1 CPUs=2 State=UNKNOWN
PartitionName=all Nodes=$node Default=YES MaxTime=INFINITE State=UP
END
export SLURM_CONF=$folder/slurm.conf
export PATH=$PATH:/usr/sbin

head -c 1024 /dev/urandom >"$folder/munge.key"
chmod 600 "$folder/munge.key"
munged --foreground --key-file="$folder/munge.key" --socket="$folder/munge.socket" \
    --pid-file="$folder/munged.pid" --log-file="$folder/munged.log" \
    --seed-file="$folder/munged.seed" 2>"$folder/munged.err.log" &
daemons+=($!)
# The others end if it is not there yet.
timeout 60 bash -c "until munge -n --socket='$folder/munge.socket' >/dev/null 2>&1; do :; done"
slurmctld -D 2>>"$folder/slurmctld.err.log" &
daemons+=($!)
timeout 60 bash -c 'until scontrol ping | grep -q "is UP"; do :; done'
slurmd -D 2>>"$folder/slurmd.err.log" &
daemons+=($!)

suite=$source_folder/tests/suites/few.toml
may_not_pass() { "$@" || [ $? -eq 1 ]; }  # the starts are too short to come up

may_not_pass "$program" regress "$suite" --quiet --results "$folder/one.results"
export RUNUP=$program
may_not_pass sbatch --wait --array=1-5 --output="$folder/task-%a.log" --chdir="$folder" \
    "$source_folder/scripts/regress_array.sbatch" "$suite" "$folder/shards"
may_not_pass "$program" merge "$folder"/shards/*.shard --quiet --results "$folder/merged.results"
test "$(ls "$folder/shards" | wc -l)" -eq 5
cmp "$folder/one.results" "$folder/merged.results"
cat "$folder"/task-*.log
echo "Five tasks under $(sinfo --version): the merged file has the bytes of one run."
