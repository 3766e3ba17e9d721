#!/usr/bin/env bash
# A list spread over two nodes by Slurm job arrays, joined, compared with the list done at one go. Both nodes are daemons
# of this machine on loopback ports of their own; nothing of the system's Slurm is touched.
# usage: survey_slurm.sh LOBEWISE SOURCE; exit 77: skipped, Slurm is not here
set -euo pipefail
lobewise=$(realpath "$1")
source=$(realpath "$2")
for tool in slurmctld slurmd sbatch squeue scontrol python3; do
  command -v "$tool" >/dev/null || { echo "skipped: no $tool"; exit 77; }
done
plugins=$(dirname "$(find /usr/lib /usr/lib64 -name auth_none.so -path '*slurm*' 2>/dev/null | head -1)")
[ -f "$plugins/auth_none.so" ] || { echo "skipped: this Slurm has no auth/none"; exit 77; }

work=$(mktemp -d)
pids=()
finish() {
  code=$?
  [ ${#pids[@]} -eq 0 ] || kill "${pids[@]}" 2>/dev/null || true
  [ "$code" -eq 0 ] || tail -n 20 "$work"/*.log "$work"/slice_*.out 2>/dev/null || true
  wait 2>/dev/null || true
  rm -rf "$work"
}
trap finish EXIT
read -r -a port < <(python3 -c '
import socket
held = [socket.socket() for _ in range(3)]
for s in held: s.bind(("127.0.0.1", 0))
print(*(s.getsockname()[1] for s in held))')
mkdir "$work/state" "$work/spool_a" "$work/spool_b"
cat >"$work/slurm.conf" <<EOF
ClusterName=loopback
SlurmctldHost=$(hostname -s)(127.0.0.1)
SlurmctldPort=${port[0]}
SlurmUser=$(id -un)
SlurmdUser=$(id -un)
AuthType=auth/none
CredType=cred/none
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_res
SelectTypeParameters=CR_CPU
SchedulerType=sched/builtin
MpiDefault=none
StateSaveLocation=$work/state
SlurmdSpoolDir=$work/spool_%n
SlurmctldPidFile=$work/ctld.pid
SlurmdPidFile=$work/d_%n.pid
SwitchType=switch/none
JobCompType=jobcomp/none
AccountingStorageType=accounting_storage/none
ReturnToService=2
NodeName=a NodeAddr=127.0.0.1 NodeHostname=$(hostname -s) Port=${port[1]} CPUs=1
NodeName=b NodeAddr=127.0.0.1 NodeHostname=$(hostname -s) Port=${port[2]} CPUs=1
PartitionName=all Nodes=a,b Default=YES State=UP
EOF
export SLURM_CONF=$work/slurm.conf
slurmctld -D -c -f "$SLURM_CONF" >"$work/ctld.log" 2>&1 & pids+=($!)
for node in a b; do slurmd -D -N "$node" -f "$SLURM_CONF" >"$work/slurmd_$node.log" 2>&1 & pids+=($!); done
for _ in $(seq 100); do
  [ "$(sinfo -h -t idle -o %D 2>/dev/null || true)" = 2 ] && break
  sleep 0.1
done
[ "$(sinfo -h -t idle -o %D)" = 2 ] || { echo "skipped: the daemons do not come up here"; tail -n 5 "$work"/*.log; exit 77; }

cp "$source/examples/plant_list.csv" "$work/list.csv"
cd "$work"
"$lobewise" survey list.csv --out whole.csv >/dev/null
cat >slice.sh <<EOF
#!/bin/sh
exec "$lobewise" survey "$work/list.csv" --mapping "$work/whole.mapping.yaml" --threads 1 \
  --slice "\$SLURM_ARRAY_TASK_ID/\$SLURM_ARRAY_TASK_COUNT" --out "$work/part_\$SLURM_ARRAY_TASK_ID.slice"
EOF
job=$(sbatch --parsable --array=1-4 --ntasks=1 --output="$work/slice_%a.out" slice.sh)
for _ in $(seq 300); do
  [ -z "$(squeue -h -j "$job" 2>/dev/null || true)" ] && break
  sleep 0.1
done
nodes=$(for task in 1 2 3 4; do scontrol -o show job "${job}_$task" | grep -o ' NodeList=[ab]' || true; done | sort -u | wc -l)
"$lobewise" survey --join part_*.slice --out joined.csv >/dev/null
cmp whole.csv joined.csv
echo "4 slices on $nodes nodes, joined: the same bytes as the whole list"
